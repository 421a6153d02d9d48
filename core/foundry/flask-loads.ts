/** What a filled flask weighs, what lifts the pattern in it, and how the metal presses on the mould's floor. */
import { type Finding, note, warn } from '../part/finding.js';
import type { Alloy } from './alloys/index.js';
import { type Flask, flaskVolume } from './flasks.js';
import { columnPressure } from './gating/choke.js';
import { type BlockInvestment, type Investment, slurryDensity } from './investment.js';
import { massOf } from './material.js';
import type { Basis, FlaskLoads } from './plans.js';

/** g/mm³ */
const steelDensity = 7.85e-3;

/**
 * g that one person may lift with tongs: the load constant 23 kg, times 25 cm over the distance of the hands from the
 * body, here 63 cm: the longest the equation allows.
 */
export const oneHanderMass = (23_000 * 25) / 63;

export interface FlaskLoadsInput {
  readonly flask: Flask;
  /** mm³ of the gated pattern. */
  readonly gatedVolume: number;
  /** mm of the gated pattern. */
  readonly gatedHeight: number;
  /** mm of investment under the pattern; negative where the flask is too low. */
  readonly floor: number;
  readonly alloy: Alloy;
  readonly investment: BlockInvestment;
  readonly waterRatio: number;
  /** g/mm³ */
  readonly plasticDensity: number;
}

/** g of the flask's steel: a tube, and the bottom of a can. */
export function steelMass({ insideDiameter: d, insideHeight: h, wall, kind }: Flask): number {
  const shell = Math.PI * (d + wall) * wall * h;
  const bottom = kind === 'can' ? (Math.PI / 4) * d ** 2 * wall : 0;
  return (shell + bottom) * steelDensity;
}

/**
 * Greatest bending stress in a round plate held at its rim under an even pressure, MPa: σ = 3 p a² / (4 t²) at the rim
 * (Roark's Formulas for Stress and Strain, table 11.2, case 10b).
 * @param pressure MPa
 * @param radius a, mm
 * @param thickness t, mm, > 0
 */
export const clampedPlateStress = (pressure: number, radius: number, thickness: number): number =>
  (3 * pressure * radius ** 2) / (4 * thickness ** 2);

/**
 * Weights in g. The wet flask holds slurry and pattern, the fired one dry mould, the poured one mould and metal to the
 * cup's brim. `lift`: the slurry displaced, less the pattern if it is printed solid; a hollow print of the same outside
 * lifts with nearly the whole. The floor of a tube bears the metal alone; a can's own bottom helps it.
 */
export function planFlaskLoads(input: FlaskLoadsInput): FlaskLoads {
  const { flask, gatedVolume, alloy, investment, plasticDensity } = input;
  const steel = steelMass(flask);
  const mould = Math.max(0, flaskVolume(flask) - gatedVolume);
  const slurry = slurryDensity(input.waterRatio, investment.powderDensity);
  const fired = steel + mould * investment.mould.density;
  const pressure = columnPressure(input.gatedHeight, alloy.liquidDensity);
  const bearsAlone = flask.kind === 'tube' && input.floor > 0;
  return {
    mass: {
      wet: steel + mould * slurry + massOf(gatedVolume, { density: plasticDensity }),
      fired,
      poured: fired + massOf(gatedVolume, { density: alloy.density }),
    },
    lift: slurryLift(gatedVolume, slurry, plasticDensity),
    floor: {
      pressure,
      stress: bearsAlone ? clampedPlateStress(pressure, flask.insideDiameter / 2, input.floor) : 0,
      strength: investment.mould.strength / safety,
    },
  };
}

/** Between breaking strength and what is relied on: brittle, and a break pours metal out below. */
const safety = 3;

/** g by which slurry lifts a pattern under it: printed solid, and hollow. Densities in g/mm³. */
export const slurryLift = (volume: number, slurry: number, plastic: number): FlaskLoads['lift'] => ({
  solid: Math.max(0, volume * (slurry - plastic)),
  hollow: volume * slurry,
});

/** Where a mould is more than one person may lift with tongs. @param fired, poured g */
export function heavyMould(mould: 'flask' | 'shell', fired: number, poured: number): readonly Finding[] {
  const kg = (g: number): string => (g / 1000).toFixed(1);
  if (poured <= oneHanderMass) return [];
  return [
    note(
      `${mould}-heavy`,
      `The ${mould} weighs ${kg(fired)} kg hot from the kiln and ${kg(poured)} kg poured: too much for one person with tongs.`,
      'Two people or a hoist, rehearsed cold; leave it where it was poured until the metal has frozen.',
    ),
  ];
}

export function checkFlaskLoads(loads: FlaskLoads, flask: Flask, investment: Investment): readonly Finding[] {
  const { mass, floor } = loads;
  return [
    ...(floor.stress > floor.strength
      ? [
          warn(
            'mould-floor-weak',
            `The metal bends the ${Math.round(flask.insideDiameter)} mm wide floor of the mould by ${floor.stress.toFixed(2)} MPa; ${floor.strength.toFixed(2)} MPa is what fired ${investment.title.toLowerCase()} may be trusted with.`,
            'Pour it standing flat on a bed of dry sand, never on bars; or use a taller flask.',
            'flasks',
          ),
        ]
      : []),
    ...heavyMould('flask', mass.fired, mass.poured),
    ...(flask.wall === 0
      ? [
          warn(
            'mould-unbanded',
            'The mould has no metal round it in the fire: such moulds crack in the ramp and leak.',
            'Leave the can or tube on until the casting is out, or bind the mould with wire mesh in a thicker wall.',
            'flasks',
          ),
        ]
      : []),
  ];
}

export const flaskLoadBases: Readonly<Record<string, Basis>> = {
  mass: {
    rule: 'steel 7.85 g/cm³; wet slurry, dry mould and metal by volume',
    source: 'Mass balance; mould as under burnout',
  },
  lift: {
    rule: 'slurry displaced, less the weight of the pattern',
    source: 'Archimedes',
  },
  floor: {
    rule: `p = ρ g h to the cup's brim; σ = 3 p a² / 4 t², a third of the fired strength allowed`,
    source: 'Roark’s Formulas for Stress and Strain, table 11.2, case 10b; strength from memory',
  },
  liftedByOne: {
    rule: '23 kg × 25 cm / 63 cm = 9.1 kg at the end of tongs',
    source: 'Waters et al., Revised NIOSH equation, Ergonomics 36 (1993) (from memory)',
  },
};
