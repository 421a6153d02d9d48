/** Three-strand rope: breaking strength by diameter. mm, N. */
import { newtonsPerPound } from '../units/mechanics.js';
import { gravity } from './hands.js';

export type RopeFibre = 'nylon' | 'polyester' | 'polypropylene' | 'manila';

export const ropeFibres: readonly RopeFibre[] = ['nylon', 'polyester', 'polypropylene', 'manila'];

const kilogramForce = gravity;
const pound = newtonsPerPound;

/**
 * Diameter, mm, and kgf: BS 4928, three-strand hawser-laid man-made fibre ropes (from memory). American lists of
 * minimum strengths are up to a quarter lower; the higher figure makes the stronger fitting.
 */
const bs4928 = {
  nylon: [
    [4, 320],
    [6, 750],
    [8, 1350],
    [10, 2080],
    [12, 3000],
    [14, 4100],
    [16, 5300],
    [18, 6700],
    [20, 8300],
    [24, 12_000],
  ],
  polyester: [
    [4, 295],
    [6, 565],
    [8, 1020],
    [10, 1590],
    [12, 2270],
    [14, 3180],
    [16, 4060],
    [18, 5080],
    [20, 6350],
    [24, 9140],
  ],
  polypropylene: [
    [6, 550],
    [8, 960],
    [10, 1425],
    [12, 2030],
    [14, 2790],
    [16, 3500],
    [18, 4450],
    [20, 5370],
    [24, 7600],
  ],
} as const;

/** Diameter, in, and lbf: Federal Specification T-R-605, new manila rope (from memory). */
const tr605 = [
  [3 / 16, 450],
  [1 / 4, 600],
  [5 / 16, 1000],
  [3 / 8, 1350],
  [7 / 16, 1750],
  [1 / 2, 2650],
  [9 / 16, 3450],
  [5 / 8, 4400],
  [3 / 4, 5400],
  [7 / 8, 7700],
  [1, 9000],
] as const;

type Table = readonly (readonly [diameter: number, breaking: number])[];

/** Diameter mm, breaking strength N, thinnest first. */
export const ropeTable: Readonly<Record<RopeFibre, Table>> = {
  nylon: bs4928.nylon.map(([d, kgf]) => [d, kgf * kilogramForce]),
  polyester: bs4928.polyester.map(([d, kgf]) => [d, kgf * kilogramForce]),
  polypropylene: bs4928.polypropylene.map(([d, kgf]) => [d, kgf * kilogramForce]),
  manila: tr605.map(([inches, lbf]) => [inches * 25.4, lbf * pound]),
};

/**
 * Breaking strength of new three-strand rope, N: between the table's sizes by strength over diameter squared, beyond
 * them by that of the last size.
 * @param diameter mm, > 0
 */
export function ropeBreakingStrength(fibre: RopeFibre, diameter: number): number {
  if (!(diameter > 0)) throw new RangeError(`rope diameter is ${diameter} mm; it must be over 0`);
  const table = ropeTable[fibre];
  const perArea = ([d, n]: readonly [number, number]): number => n / d ** 2;
  const next = table.findIndex(([d]) => d >= diameter);
  if (next <= 0) return perArea(table[next === 0 ? 0 : table.length - 1]!) * diameter ** 2;
  const [below, above] = [table[next - 1]!, table[next]!];
  const share = (diameter - below[0]) / (above[0] - below[0]);
  return ((1 - share) * perArea(below) + share * perArea(above)) * diameter ** 2;
}

/**
 * Share of the breaking strength a line works at: 1/5, the least design factor of fibre-rope makers' guides (Cordage
 * Institute, CI 1401: 5 to 12; from memory). Lines made fast to a cleat are not lifting lines.
 */
export const usualWorkingFraction = 1 / 5;

/** Pull of the line that fittings are sized for, N. `fraction` of the breaking strength, over 0 to 1. */
export const lineLoad = (fibre: RopeFibre, diameter: number, fraction = usualWorkingFraction): number =>
  ropeBreakingStrength(fibre, diameter) * fraction;

/** Strength left at a bend round a knot or hitch: about half (Cordage Institute guides, from memory). */
export const knotShare = 0.5;
