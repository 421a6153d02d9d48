/** Round bar sold for pins, and what goes with a pin. mm. */
import type { Fitting } from '../part/contract.js';
import { formatLength } from '../units/length.js';
import type { FastenerSeries } from './fastener.js';

const inch = 25.4;

/** Stock diameters, thinnest first: metric round bar; inch rod from 3/32 in (merchants' lists, no standard). */
export const stockRods: Readonly<Record<FastenerSeries, readonly number[]>> = {
  metric: [2, 2.5, 3, 4, 5, 6, 8, 10, 12, 16, 20],
  inch: [1.5, 2, 3, 4, 5, 6, 8, 10, 12].map((sixteenths) => (sixteenths / 16) * inch),
};

/** The thinnest stock rod at least this thick, or the thickest there is. */
export const rodAtLeast = (series: FastenerSeries, diameter: number): number => {
  const row = stockRods[series];
  return row.find((rod) => rod >= diameter - 1e-9) ?? row[row.length - 1]!;
};

/** The thickest stock rod at most this thick, or the thinnest there is. */
export const rodAtMost = (series: FastenerSeries, diameter: number): number => {
  const row = stockRods[series];
  return row.findLast((rod) => rod <= diameter + 1e-9) ?? row[0]!;
};

/** What a rod is called at the merchant's: `6 mm`, `1/4 in`. */
export const rodName = (diameter: number): string => {
  const isMetric = stockRods.metric.some((rod) => Math.abs(rod - diameter) < 1e-6);
  const isInch = stockRods.inch.some((rod) => Math.abs(rod - diameter) < 1e-6);
  return isInch && !isMetric
    ? formatLength(diameter, 'in', { fraction: 32 })
    : formatLength(diameter, 'mm', { digits: 2 });
};

/** Metal to leave round a pin hole: a third of the hole, at least 1.5 mm (common practice, no source). */
export const leastPinWall = (holeDiameter: number): number => Math.max(1.5, holeDiameter / 3);

/**
 * Hole less pin for a pin that turns by hand: 0.1 mm and 1 % of the pin, near ISO 286 H11/d9 for small pins
 * (common practice, no source).
 */
export const pinClearance = (pinDiameter: number): number => 0.1 + 0.01 * pinDiameter;

/**
 * What is at a pin's end. Flush adds nothing; riveted 0.5 d, to fill a countersink (common practice, no source); a
 * split pin half its hole, and 1 d beyond the hole's centre.
 */
export type PinEnd = 'flush' | 'riveted' | 'split-pin';

export const pinEndLength = (diameter: number, end: PinEnd): number =>
  end === 'flush' ? 0 : end === 'riveted' ? 0.5 * diameter : splitPinFor(diameter).nominal / 2 + diameter;

/** Length to cut a pin that passes through `grip` mm, rounded up to half a millimetre. */
export const pinLength = (
  diameter: number,
  grip: number,
  ends: readonly [PinEnd, PinEnd] = ['flush', 'flush'],
): number =>
  Math.ceil((grip + pinEndLength(diameter, ends[0]) + pinEndLength(diameter, ends[1])) * 2 - 1e-9) / 2;

/** A pin as rows of the cut list: the rod, and its split pins where it has any. `grip` as for `pinLength`. */
export function pinFittings(
  material: string,
  diameter: number,
  grip: number,
  ends: readonly [PinEnd, PinEnd] = ['flush', 'flush'],
  quantity = 1,
): readonly Fitting[] {
  const rod = {
    quantity,
    text: `${material} rod ${rodName(diameter)} × ${pinLength(diameter, grip, ends)} mm`,
  };
  const splits = ends.filter((end) => end === 'split-pin').length * quantity;
  if (splits === 0) return [rod];
  return [rod, { quantity: splits, text: `split pin ISO 1234 ${splitPinFor(diameter).nominal} mm` }];
}

/** A split pin (cotter) by its nominal size, which is its hole's diameter, mm. */
export interface SplitPin {
  readonly nominal: number;
  /** Bolts it is for: over, up to, mm. */
  readonly bolt: readonly [number, number];
  /** Clevis pins it is for: over, up to, mm. */
  readonly clevis: readonly [number, number];
}

/** ISO 1234, table 1, bolts and clevis pins by nominal size (from memory). */
export const splitPins: readonly SplitPin[] = (
  [
    [0.6, 0, 2.5, 0, 2],
    [0.8, 2.5, 3.5, 2, 3],
    [1, 3.5, 4.5, 3, 4],
    [1.2, 4.5, 5.5, 4, 5],
    [1.6, 5.5, 7, 5, 6],
    [2, 7, 9, 6, 8],
    [2.5, 9, 11, 8, 9],
    [3.2, 11, 14, 9, 12],
    [4, 14, 20, 12, 17],
    [5, 20, 27, 17, 23],
  ] as const
).map(([nominal, b0, b1, c0, c1]) => ({ nominal, bolt: [b0, b1], clevis: [c0, c1] }));

/** The split pin for a plain pin of this diameter, mm: the clevis column; the largest beyond it. */
export const splitPinFor = (diameter: number): SplitPin =>
  splitPins.find((pin) => diameter <= pin.clevis[1] + 1e-9) ?? splitPins[splitPins.length - 1]!;
