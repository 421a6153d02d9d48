/**
 * Required machining allowances and dimensional casting tolerances of ISO 8062-3:2007 (RMAG and DCTG; the same
 * figures as ISO 8062:1994, RMA and CT). Transcribed from memory; the allowance row 250–400 mm, grades D to F, is
 * the least certain.
 */
import { checkRange, FoundryInputError } from './input.js';

export const machiningGrades = ['A', 'B', 'C', 'D', 'E', 'F', 'G', 'H', 'J', 'K'] as const;
export type MachiningGrade = (typeof machiningGrades)[number];

/** [largest dimension up to and including, mm; allowances of grades A to K, mm per side]. */
const allowances: readonly (readonly [number, readonly number[]])[] = [
  [40, [0.1, 0.1, 0.2, 0.3, 0.4, 0.5, 0.5, 0.7, 1, 1.4]],
  [63, [0.1, 0.2, 0.3, 0.3, 0.4, 0.5, 0.7, 1, 1.4, 2]],
  [100, [0.2, 0.3, 0.4, 0.5, 0.7, 1, 1.4, 2, 2.8, 4]],
  [160, [0.3, 0.4, 0.5, 0.8, 1.1, 1.5, 2.2, 3, 4, 6]],
  [250, [0.3, 0.5, 0.7, 1, 1.4, 2, 2.8, 4, 5.5, 8]],
  [400, [0.4, 0.7, 0.9, 1.3, 1.8, 2.5, 3.5, 5, 7, 10]],
  [630, [0.5, 0.8, 1.1, 1.5, 2.2, 3, 4, 6, 9, 12]],
  [1000, [0.6, 0.9, 1.2, 1.8, 2.5, 3.5, 5, 7, 10, 14]],
];

/** [dimension up to and including, mm; total tolerance widths of grades 1 to 12, mm, null where not defined]. */
const tolerances: readonly (readonly [number, readonly (number | null)[]])[] = [
  [10, [0.09, 0.13, 0.18, 0.26, 0.36, 0.52, 0.74, 1, 1.5, 2, 2.8, 4.2]],
  [16, [0.1, 0.14, 0.2, 0.28, 0.38, 0.54, 0.78, 1.1, 1.6, 2.2, 3, 4.4]],
  [25, [0.11, 0.15, 0.22, 0.3, 0.42, 0.58, 0.82, 1.2, 1.7, 2.4, 3.2, 4.6]],
  [40, [0.12, 0.17, 0.24, 0.32, 0.46, 0.64, 0.9, 1.3, 1.8, 2.6, 3.6, 5]],
  [63, [0.13, 0.18, 0.26, 0.36, 0.5, 0.7, 1, 1.4, 2, 2.8, 4, 5.6]],
  [100, [0.14, 0.2, 0.28, 0.4, 0.56, 0.78, 1.1, 1.6, 2.2, 3.2, 4.4, 6]],
  [160, [0.15, 0.22, 0.3, 0.44, 0.62, 0.88, 1.2, 1.8, 2.5, 3.6, 5, 7]],
  [250, [null, 0.24, 0.34, 0.5, 0.7, 1, 1.4, 2, 2.8, 4, 5.6, 8]],
  [400, [null, null, 0.4, 0.56, 0.78, 1.1, 1.6, 2.2, 3.2, 4.4, 6.2, 9]],
];

/** Largest dimension the allowance table knows, mm. */
export const largestAllowanceDimension = 1000;
/** Largest dimension the tolerance table knows, mm. */
export const largestToleranceDimension = 400;

/**
 * Required machining allowance, mm per side, of one grade (ISO 8062-3 table of RMAG).
 * @param largestDimension largest overall dimension of the casting after machining, mm, over 0 to 1000
 * @throws FoundryInputError outside that.
 */
export function requiredMachiningAllowance(largestDimension: number, grade: MachiningGrade): number {
  const row = rowFor('largestDimension', allowances, largestDimension, largestAllowanceDimension);
  const value = row[machiningGrades.indexOf(grade)];
  if (value === undefined)
    throw new FoundryInputError('grade', grade, `it must be one of ${machiningGrades.join(', ')}`);
  return value;
}

/**
 * Total width of the casting tolerance, mm (± half of it), of one grade (ISO 8062-3 table of DCTG).
 * @param dimension of the raw casting, mm, over 0 to 400
 * @param grade 1 to 12
 * @throws FoundryInputError outside the table, or where the standard leaves the grade undefined at that size.
 */
export function castingTolerance(dimension: number, grade: number): number {
  const row = rowFor('dimension', tolerances, dimension, largestToleranceDimension);
  const value = row[grade - 1];
  if (value === undefined)
    throw new FoundryInputError('grade', grade, 'it must be a whole number from 1 to 12');
  if (value === null)
    throw new FoundryInputError(
      'grade',
      grade,
      `DCTG ${grade} is not defined at ${dimension} mm; take a coarser one`,
    );
  return value;
}

function rowFor<T>(
  name: string,
  table: readonly (readonly [number, readonly T[]])[],
  size: number,
  max: number,
) {
  checkRange(name, size, Number.MIN_VALUE, max, 'mm');
  const found = table.find(([upTo]) => size <= upTo);
  if (found === undefined) throw new FoundryInputError(name, size, `it must be at most ${max} mm`);
  return found[1];
}
