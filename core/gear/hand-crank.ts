import { formatLength, formatPower, type LengthUnit, newtonsPerPound } from '../units/index.js';

/** What a person gives at a crank. */
export interface CrankEffort {
  /** N at the handle. */
  readonly force: number;
  /** N·mm */
  readonly torque: number;
  /** rad/s */
  readonly speed: number;
  /** W */
  readonly power: number;
}

/**
 * A labourer at a winch handle: 8 kgf at 0.75 m/s through a day's work, 59 W (Poncelet's and Morin's figures, as
 * nineteenth-century mechanics repeat them; Rankine has 18 lbf at 2.5 ft/s; from memory).
 */
export const steadyForce = 78;
/** mm/s */
export const steadySpeed = 750;
/** A short heave against how hard one goes all day (common practice, no source). */
export const shortEffort = 3;

/** What a crank of this radius (mm) gives hour after hour. RangeError unless above 0. */
export function steadyCrank(radius: number): CrankEffort {
  if (!(radius > 0 && Number.isFinite(radius)))
    throw new RangeError(`crank radius is ${radius} mm; it must be above 0`);
  return {
    force: steadyForce,
    torque: steadyForce * radius,
    speed: steadySpeed / radius,
    power: (steadyForce * steadySpeed) / 1000,
  };
}

/** A torque (N·mm) the teeth may carry, against what one person gives at a crank of a radius (mm), in words. */
export function describeCrank(radius: number, allowedTorque: number, unit: LengthUnit = 'mm'): string {
  const crank = steadyCrank(radius);
  const newtonMetres = (torque: number) =>
    unit === 'mm'
      ? `${Number((torque / 1000).toPrecision(2))} N·m`
      : `${Number((torque / (newtonsPerPound * 304.8)).toPrecision(2))} lbf·ft`;
  const turns = Math.round((crank.speed * 30) / Math.PI);
  const heave = shortEffort * crank.torque;
  const verdict =
    allowedTorque >= heave
      ? 'which even a hard heave does not reach'
      : allowedTorque >= crank.torque
        ? 'enough for steady work but less than a hard heave'
        : 'less than steady work at this crank';
  return (
    `One person at a ${formatLength(radius, unit, { digits: unit === 'mm' ? 0 : 1 })} crank gives about ${newtonMetres(crank.torque)} all day at some ${turns} turns a minute ` +
    `(${formatPower(Math.round(crank.power), unit)}), and about ${newtonMetres(heave)} in a short heave; the teeth are reckoned good for ${newtonMetres(allowedTorque)}, ${verdict}.`
  );
}
