import type { Vec3 } from '../../solid/types.js';
import { type MeshUnit, meshUnits, millimetresPer, unitNames } from './units.js';
import { sizeFigure, sizeText } from './words.js';

/** Longest side of what a small shop casts, mm: common practice, no source. */
export const castable = { least: 5, most: 500 } as const;

/** A size, read in one unit. */
export interface UnitReading {
  readonly unit: MeshUnit;
  /** mm in one unit. */
  readonly factor: number;
  /** mm */
  readonly size: Vec3;
  /** Whether its longest side is of a size that is cast. */
  readonly plausible: boolean;
}

export interface UnitGuess {
  /** The likeliest; null where the size fits none. */
  readonly best: UnitReading | null;
  /** Only one unit fits. */
  readonly sure: boolean;
  /** In all units, likeliest first. */
  readonly readings: readonly UnitReading[];
  /** A sentence: what is guessed, and why. */
  readonly reason: string;
}

/**
 * Guesses the unit of a file that names none from its box, in the file's unit: the first of mm, in, cm, m and ft in which
 * the longest side is from 5 to 500 mm. Meshes without a unit are mostly in mm, then in inches: common practice, no source.
 */
export function guessUnit(size: Vec3): UnitGuess {
  const longest = Math.max(...size);
  const readings = meshUnits.map((unit): UnitReading => {
    const factor = millimetresPer[unit];
    const side = longest * factor;
    return {
      unit,
      factor,
      size: [size[0] * factor, size[1] * factor, size[2] * factor],
      plausible: side >= castable.least && side <= castable.most,
    };
  });
  const fitting = readings.filter((reading) => reading.plausible);
  const [best] = fitting;
  const ordered = [...fitting, ...readings.filter((reading) => !reading.plausible)];
  const range = `${castable.least} to ${castable.most} mm`;
  if (!best)
    return {
      best: null,
      sure: false,
      readings: ordered,
      reason: `The longest side is ${sizeFigure(longest)} units: in no unit is that from ${range}, as castings are. Name the unit, or a length to scale to.`,
    };
  const others = fitting.slice(1);
  const why =
    others.length === 0
      ? `in no other unit is its longest side from ${range}`
      : `${others.map(({ unit, size: s }) => `in ${unitNames[unit]} it would be ${sizeText(s)}`).join(', ')}, which could be too`;
  return {
    best,
    sure: others.length === 0,
    readings: ordered,
    reason: `The file names no unit. Taken as ${unitNames[best.unit]} it is ${sizeText(best.size)}; ${why}.`,
  };
}
