import type { Grid } from './grid.js';
import { type HeatField, type HeatProblem, heatInField, startField, stepField } from './heat-field.js';
import { cellHeat, heatAt, temperatureAt } from './substance.js';

/** Cells with less metal than this freeze with the mould about them and are not asked. */
const leastShare = 0.02;

export interface FreezeResult {
  /** s from the filled mould until each cell is solid; 0 where there is no metal. */
  readonly solidAt: Float64Array;
  /** s until all metal is solid. */
  readonly total: number;
  /** Share of the heat that moved which the balance does not account for. */
  readonly imbalance: number;
  readonly steps: number;
  readonly field: HeatField;
}

export interface FreezeOptions {
  /** s, of the first step; later ones grow to a share of the time gone. */
  readonly firstStep?: number;
  /** Later steps as a share of the time gone. */
  readonly stepShare?: number;
  /** Called now and then with the share of the metal that is solid. */
  readonly onProgress?: (solid: number) => void;
}

/** °C by cell as the mould is full: cells with both hold their common heat. */
export function mixedStart(
  { share, metal, mould }: Pick<HeatProblem, 'share' | 'metal' | 'mould'>,
  metalTemperature: number,
  mouldTemperature: number,
): Float64Array {
  const heat = cellHeat(share, metal, mould);
  const pure = cellHeat(Float64Array.of(1, 0), metal, mould);
  const [hot, cold] = [heatAt(pure, 0, metalTemperature), heatAt(pure, 1, mouldTemperature)];
  return share.map((s, cell) =>
    s === 0
      ? mouldTemperature
      : s === 1
        ? metalTemperature
        : temperatureAt(heat, cell, s * hot + (1 - s) * cold),
  );
}

/** Cools the full mould until all its metal is solid. Never longer than `mostSteps`. */
export function runFreeze(problem: HeatProblem, options: FreezeOptions = {}): FreezeResult {
  const { firstStep = 0.02, stepShare = 0.05, onProgress } = options;
  const field = startField(problem);
  const { share, present } = problem;
  const solidAt = new Float64Array(share.length);
  const liquid: number[] = [];
  for (let c = 0; c < share.length; c++)
    if (share[c]! >= leastShare && !(present && present[c] === 0)) liquid.push(c);
  const before = heatInField(field);
  const begun = field.content.slice();
  const all = liquid.length;
  let steps = 0;
  let open = liquid;
  const last = new Float64Array(share.length);
  while (open.length > 0 && steps < mostSteps) {
    for (const c of open) last[c] = field.content[c]!;
    const step = Math.max(firstStep, stepShare * field.time);
    stepField(field, step);
    steps++;
    const still: number[] = [];
    for (const c of open) {
      const now = field.content[c]!;
      if (now > 0) still.push(c);
      // Between the steps as its heat goes.
      else solidAt[c] = last[c]! <= 0 ? 0 : field.time - (step * -now) / (last[c]! - now);
    }
    open = still;
    onProgress?.(1 - open.length / all);
  }
  for (const c of open) solidAt[c] = Number.POSITIVE_INFINITY;
  const moved = field.content.reduce(
    (sum, now, c) =>
      present && present[c] === 0 ? sum : sum + (Math.abs(now - begun[c]!) / 2) * cellVolume(problem.grid, c),
    0,
  );
  return {
    solidAt,
    total: solidAt.reduce((a, b) => Math.max(a, b), 0),
    imbalance: Math.abs(before - heatInField(field) - field.lost) / Math.max(moved, 1e-9),
    steps,
    field,
  };
}

const mostSteps = 5000;

/** Volume of a cell, mm³. */
export function cellVolume({ counts: [nx, ny], edges: [ex, ey, ez] }: Grid, cell: number): number {
  const [i, j, k] = [cell % nx, Math.floor(cell / nx) % ny, Math.floor(cell / (nx * ny))];
  return (ex[i + 1]! - ex[i]!) * (ey[j + 1]! - ey[j]!) * (ez[k + 1]! - ez[k]!);
}
