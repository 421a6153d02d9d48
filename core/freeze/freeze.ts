import {
  type FieldOptions,
  type HeatField,
  heatInField,
  startField,
  stepField,
  sumOver,
} from './heat-field.js';
import type { HeatProblem } from './heat-problem.js';
import { heatLaw, lawHeat, lawTemperature } from './substance.js';
import { FreezeWatch, type Watched } from './watch.js';

export interface FreezeResult extends Watched {
  /** s until all metal is solid. */
  readonly total: number;
  /** Share of the heat that moved which the balance does not account for. */
  readonly imbalance: number;
  readonly steps: number;
  /** As the last metal is solid: it can be carried on. */
  readonly field: HeatField;
}

export interface FreezeOptions extends FieldOptions {
  /** s, of the first step; later ones grow to a share of the time gone. */
  readonly firstStep?: number;
  /** Later steps as a share of the time gone. */
  readonly stepShare?: number;
  /** Called now and then with the share of the metal that is solid. */
  readonly onProgress?: (solid: number) => void;
}

/** °C by cell as the mould is full: cells with both hold their common heat. `mould`: one for all, or by cell. */
export function mixedStart(
  { share, metal, mould }: Pick<HeatProblem, 'share' | 'metal' | 'mould'>,
  metalTemperature: number,
  mouldTemperature: number | Float32Array,
): Float32Array {
  const law = heatLaw(metal, mould);
  const hot = lawHeat(law, 1, metalTemperature);
  return share.map((s, cell) => {
    const own = typeof mouldTemperature === 'number' ? mouldTemperature : mouldTemperature[cell]!;
    if (s === 0) return own;
    return s === 1 ? metalTemperature : lawTemperature(law, s, s * hot + (1 - s) * lawHeat(law, 0, own));
  });
}

const mostSteps = 5000;

/** Cools the full mould until all its metal is solid. Never longer than `mostSteps`. */
export function runFreeze(problem: HeatProblem, options: FreezeOptions = {}): FreezeResult {
  const { firstStep = 0.02, stepShare = 0.05, onProgress } = options;
  const field = startField(problem, options);
  const watch = new FreezeWatch(field);
  const before = heatInField(field);
  const begun = field.content.slice();
  let steps = 0;
  while (watch.open > 0 && steps < mostSteps) {
    const step = Math.max(firstStep, stepShare * field.time);
    stepField(field, step);
    watch.after(step);
    steps++;
    onProgress?.(1 - watch.open / Math.max(1, watch.all));
  }
  const watched = watch.close();
  const moved = sumOver(problem, (c) => Math.abs(field.content[c]! - begun[c]!) / 2);
  return {
    ...watched,
    total: watched.solidAt.reduce((a, b) => Math.max(a, b), 0),
    imbalance: Math.abs(before - heatInField(field) - field.lost) / Math.max(moved, 1e-9),
    steps,
    field,
  };
}
