import type { Grid } from './grid.js';

/** What a cell belongs to: the mould, a casting, the sprue with cup and runners, or a vent. */
export const cellRole = { mould: 0, casting: 1, gating: 2, vent: 3 } as const;

/** Cells with less metal than this freeze with the mould about them and are not asked. */
export const leastShare = 0.02;

/**
 * What the calculation knows of every cell of a mould: the ground for readings, pictures and files. Times in s from the
 * start of the pour for filling, from the full mould for freezing; a cell without metal has 0 in all of them.
 */
export interface CastFields {
  readonly grid: Grid;
  /** 1 for cells that are there, 0 outside the mould. */
  readonly present: Uint8Array;
  /** Of metal in each cell, 0 to 1. */
  readonly share: Float32Array;
  /** One of `cellRole`. */
  readonly role: Uint8Array;
  /** s from the start of the pour until metal fills the cell; infinite where none comes. */
  readonly filledAt: Float32Array;
  /**
   * Of the heat the first metal to reach the cell can lose before it stops, the share it has lost on its way, 0 upward:
   * at 1 it stops. Its inverse is the misrun margin: time to freeze over time to fill.
   */
  readonly spent: Float32Array;
  /** s until the cell's metal flows no more: its first `stopFraction` is solid. */
  readonly stopsAt: Float32Array;
  /** s until all of it is solid. */
  readonly solidAt: Float32Array;
  /** G, K/mm, and cooling rate, K/s, as the last tenth is about to freeze. */
  readonly gradient: Float32Array;
  readonly coolingRate: Float32Array;
  /** °C: the hottest that the mould's face is anywhere in a mould cell that touches metal; 0 elsewhere. */
  readonly facePeak: Float32Array;
}
