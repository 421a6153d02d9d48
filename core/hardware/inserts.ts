/** What a knob is fixed with: tapped holes, threaded inserts, hanger bolts. mm. */
import type { Bolt } from './fastener.js';

/**
 * Full thread to tap, as a multiple of the bolt's diameter, by family of the casting: 1 d in iron and bronze, 1.5 d
 * in the softer, 2 d in aluminium and tin (common practice, no source).
 */
export const tappedDepth = (
  bolt: Bolt,
  family: 'copper' | 'aluminium' | 'zinc' | 'iron' | 'tin' | 'silver',
): number =>
  bolt.diameter *
  (family === 'copper' || family === 'iron' ? 1 : family === 'aluminium' || family === 'tin' ? 2 : 1.5);

/** Bore left beyond the full thread for the tap's lead: 3 pitches (common practice, no source). */
export const tapRunOut = (bolt: Bolt): number => 3 * bolt.pitch;

/**
 * A plain knurled bushing glued or pressed in a pocket: outside diameter about 1.5 d and length 1.5 d, the pocket
 * 0.1 mm wider and 1 mm deeper. Makers differ: measure the insert and give its size (common practice, no source).
 */
export interface InsertPocket {
  readonly outsideDiameter: number;
  readonly length: number;
  readonly pocketDiameter: number;
  readonly pocketDepth: number;
}

export const insertPocket = (bolt: Bolt): InsertPocket => {
  const outsideDiameter = Math.ceil(2 * 1.5 * bolt.diameter - 1e-9) / 2;
  const length = Math.ceil(2 * 1.5 * bolt.diameter - 1e-9) / 2;
  return { outsideDiameter, length, pocketDiameter: outsideDiameter + 0.1, pocketDepth: length + 1 };
};

/** Boss round a tapped hole or pocket: 0.5 of the hole's diameter of wall, at least 2 mm (twice the hole over all; common practice, no source). */
export const bossDiameter = (holeDiameter: number): number =>
  holeDiameter + 2 * Math.max(2, 0.5 * holeDiameter);

/**
 * A hanger bolt: machine thread in the knob, wood thread in the door. The wood thread is as thick as the bolt and
 * holds like a lag screw; sold in these sizes (merchants' lists, no standard).
 */
export const hangerBolts = {
  metric: ['M4', 'M5', 'M6', 'M8', 'M10'],
  inch: ['#8-32', '#10-24', '1/4in', '5/16in', '3/8in'],
} as const;
