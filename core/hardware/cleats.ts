/** Rules by which cleats, jam cleats, deck eyes and chocks follow from the line. mm. */
import type { Bolt, FastenerSeries, WoodScrew } from './fastener.js';
import { fastenerAtLeast } from './find-fastener.js';

/** One inch of cleat for each sixteenth of line (riggers' rule): 16 d. */
export const cleatLengthPerDiameter = 16;
export const cleatLength = (lineDiameter: number): number => cleatLengthPerDiameter * lineDiameter;

/** The largest line a cleat of this length is for. */
export const lineForCleat = (length: number): number => length / cleatLengthPerDiameter;

/** Two fasteners to 6 in, four from 8 in (common practice, no source); between, four from 7 in. */
export const cleatFasteners = (length: number): 2 | 4 => (length < 7 * 25.4 ? 2 : 4);

/** Fasteners at least half as thick as the rope (riggers' rule, from memory). */
export const leastCleatScrew = (lineDiameter: number): number => lineDiameter / 2;

export function cleatFastener(kind: 'bolt', series: FastenerSeries, lineDiameter: number): Bolt;
export function cleatFastener(kind: 'wood-screw', series: FastenerSeries, lineDiameter: number): WoodScrew;
export function cleatFastener(
  kind: 'bolt' | 'wood-screw',
  series: FastenerSeries,
  lineDiameter: number,
): Bolt | WoodScrew;
export function cleatFastener(
  kind: 'bolt' | 'wood-screw',
  series: FastenerSeries,
  lineDiameter: number,
): Bolt | WoodScrew {
  return fastenerAtLeast(kind, series, leastCleatScrew(lineDiameter));
}

/** Usual sizes of a horn cleat by its line and length. */
export interface HornCleatRule {
  readonly length: number;
  readonly overallHeight: number;
  /** Free height under a horn at its root, and at its tip. */
  readonly hornClearance: { readonly root: number; readonly tip: number };
  readonly hornDiameter: { readonly root: number; readonly tip: number };
  readonly baseLength: number;
  readonly baseWidth: number;
  /** Between the outermost fasteners, along. */
  readonly fastenerSpan: number;
  readonly fasteners: 2 | 4;
}

/**
 * Height and breadth after a boatbuilders' wooden cleat, 8 × 1-3/4 × 1-1/4 in for 1/4 to 3/8 in line (boatbuilders'
 * handout); horns and base by common practice, no source. The wooden one's bolts are 1-3/4 in apart; a metal
 * cleat spreads them wider, for they take the tilting pull.
 */
export function hornCleatRule(lineDiameter: number, length = cleatLength(lineDiameter)): HornCleatRule {
  const overallHeight = Math.max((1.75 / 8) * length, 3.5 * lineDiameter);
  const hornRoot = Math.max(0.095 * length, 1.1 * lineDiameter);
  return {
    length,
    overallHeight,
    hornDiameter: { root: hornRoot, tip: 0.6 * hornRoot },
    hornClearance: {
      root: Math.max(1.5 * lineDiameter, 0.1 * length),
      tip: Math.max(2 * lineDiameter, 0.13 * length),
    },
    baseLength: 0.42 * length,
    baseWidth: (1.25 / 8) * length,
    fastenerSpan: 0.28 * length,
    fasteners: cleatFasteners(length),
  };
}

/**
 * Surface that a line under load bends round by more than 10°: its diameter is at least three times the line's, four
 * is better (Cordage Institute, safer use of fibre rope, from memory). As radius: 1.5 d and 2 d.
 */
export const ropeBendRadius = (lineDiameter: number) => ({
  least: 1.5 * lineDiameter,
  better: 2 * lineDiameter,
});

/** Clear opening of a chock, fairlead or deck eye: line, splice and chafing gear pass, 2 d; 1.5 d for the bare line (common practice, no source). */
export const fairleadOpening = (lineDiameter: number) => ({
  least: 1.5 * lineDiameter,
  usual: 2 * lineDiameter,
});

/** Throat of a jam cleat: wider than the line at its mouth, 0.6 d at its end, walls closing by 6° to 12° in all (common practice, no source). */
export const jamThroat = (lineDiameter: number) => ({
  mouth: 1.3 * lineDiameter,
  end: 0.6 * lineDiameter,
  taper: (8 * Math.PI) / 180,
});
