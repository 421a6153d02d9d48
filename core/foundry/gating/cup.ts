import { maths } from '../../maths/maths.js';

/** Volume of a cone frustum, mm³. */
export const frustumVolume = (lower: number, upper: number, height: number): number =>
  (Math.PI / 12) * height * (lower ** 2 + lower * upper + upper ** 2);

export interface Cup {
  readonly topDiameter: number;
  readonly depth: number;
  readonly volume: number;
  /** Above the horizontal, radians. */
  readonly wallAngle: number;
}

export interface CupLimits {
  readonly wallAngle: number;
  readonly leastDiameter: number;
  readonly largestDiameter: number;
}

/** Deepest cup for its width: beyond this it is a second sprue. Common practice, no source. */
const deepest = 1.5;

/**
 * The conical cup over a sprue top of diameter `throat` that holds `volume`: at the wall angle asked for while it
 * stays within the largest diameter, else at that diameter and steeper, at most 1.5 diameters deep. `volume` in the
 * result may then be less than asked for.
 */
export const sizeCup = (throat: number, volume: number, limits: CupLimits): Cup => {
  const slope = maths.tan(limits.wallAngle);
  const least = Math.max(limits.leastDiameter, 1.25 * throat);
  const largest = Math.max(limits.largestDiameter, least);
  const free = Math.max(least, maths.cbrt((24 * volume) / (Math.PI * slope) + maths.pow(throat, 3)));
  const topDiameter = Math.min(free, largest);
  const wanted =
    free > largest
      ? Math.min(deepest * topDiameter, volume / frustumVolume(throat, topDiameter, 1))
      : ((topDiameter - throat) / 2) * slope;
  const depth = Math.max(wanted, ((topDiameter - throat) / 2) * slope);
  return {
    topDiameter,
    depth,
    volume: frustumVolume(throat, topDiameter, depth),
    wallAngle: maths.atan2(2 * depth, topDiameter - throat),
  };
};

/** Cup no earlier frozen than the sprue under it: its V/A (wall and open top) at 60° passes D/4 at 2.5 sprue diameters. */
export const feedingCupVolume = (throat: number, wallAngle: number): number =>
  frustumVolume(throat, 2.5 * throat, 0.75 * throat * maths.tan(wallAngle));
