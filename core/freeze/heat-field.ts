/**
 * Transient conduction with freezing on a block of cells: implicit along one axis after the other (locally
 * one-dimensional; N. N. Yanenko, The Method of Fractional Steps, 1971), so stable at any step. The unknown is each
 * cell's heat content, changed by fluxes alone: what leaves one cell enters the next, so heat is kept to rounding.
 */
import type { HeatProblem } from './heat-problem.js';
import type { Crew } from './kernel/crew.js';
import { type HeatKernel, startKernel } from './kernel/heat-kernel.js';
import { type HeatLaw, heatLaw, lawHeat } from './substance.js';

export interface HeatField {
  readonly problem: HeatProblem;
  readonly law: HeatLaw;
  readonly kernel: HeatKernel;
  /** °C */
  readonly temperature: Float32Array;
  /** J/mm³ over the solidus. */
  readonly content: Float32Array;
  /** s since the start. */
  time: number;
  /** J given to the surroundings since the start. */
  lost: number;
  /** Which way round the axes are taken next. */
  turn: number;
}

export interface FieldOptions {
  /** Further hands; the results are the same to the last bit. */
  readonly crew?: Crew;
}

/** Its arrays lie in memory of their own, freed when the field is dropped. */
export function startField(problem: HeatProblem, { crew }: FieldOptions = {}): HeatField {
  const law = heatLaw(problem.metal, problem.mould);
  const kernel = startKernel(problem, law, crew);
  const { temperature, content } = kernel;
  const { share } = problem;
  temperature.set(problem.start);
  for (let c = 0; c < content.length; c++) content[c] = lawHeat(law, share[c]!, temperature[c]!);
  return {
    problem,
    law,
    kernel,
    temperature,
    content,
    time: 0,
    lost: 0,
    turn: 0,
  };
}

/** J in all cells that are there, over the solidus. */
export const heatInField = ({ problem, content }: HeatField): number => sumOver(problem, (c) => content[c]!);

/** Of a density by cell, over the volume of all cells that are there. */
export function sumOver({ grid, present }: HeatProblem, density: (cell: number) => number): number {
  const [nx, ny, nz] = grid.counts;
  const [ex, ey, ez] = grid.edges;
  let sum = 0;
  let c = 0;
  for (let k = 0; k < nz; k++)
    for (let j = 0; j < ny; j++) {
      let row = 0;
      for (let i = 0; i < nx; i++, c++) if (present?.[c] !== 0) row += density(c) * (ex[i + 1]! - ex[i]!);
      sum += row * (ey[j + 1]! - ey[j]!) * (ez[k + 1]! - ez[k]!);
    }
  return sum;
}

/** Carries the field on by `seconds`, in place. */
export function stepField(field: HeatField, seconds: number): void {
  const { shut = [], grid } = field.problem;
  const axes = ([0, 1, 2] as const).filter((axis) => grid.counts[axis] > 1 || !shut.includes(axis));
  if (field.turn % 2 === 1) axes.reverse();
  for (const [n, axis] of axes.entries())
    field.lost += field.kernel.sweep(axis, seconds, n + 1 === axes.length);
  field.turn++;
  field.time += seconds;
}
