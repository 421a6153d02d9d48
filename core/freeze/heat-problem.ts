import type { Grid } from './grid.js';
import type { FreezingMetal, MouldSubstance } from './substance.js';

/** What lies about the block and about cells left out of it. */
export interface Surroundings {
  /** °C */
  readonly temperature: number;
  /** W/(mm²·K), by moving air. */
  readonly convection: number;
  /** Of the mould's outside, 0 to 1. */
  readonly emissivity: number;
  /** Of metal that lies bare, as in the cup; left out: the mould's. A cell with both has the mean of their shares. */
  readonly metalEmissivity?: number;
}

export interface HeatProblem {
  readonly grid: Grid;
  /** Of metal in each cell, 0 to 1; the rest is mould. */
  readonly share: Float32Array;
  /** Cells that are there; left out: all. */
  readonly present?: Uint8Array;
  readonly metal: FreezingMetal;
  readonly mould: MouldSubstance;
  /** Between metal and mould, mm²·K/W. */
  readonly contactResistance: number;
  readonly surroundings: Surroundings;
  /**
   * By axis: true area over that of the cells' faces to the surroundings, for a wall that the cells make stairs of: π/4 for
   * an upright cylinder's x and y. Left out: 1.
   */
  readonly exposed?: readonly [number, number, number];
  /** Axes whose ends let no heat through: planes of symmetry. Left out: none. */
  readonly shut?: readonly (0 | 1 | 2)[];
  /** °C by cell at the start. */
  readonly start: Float32Array;
}
