import {
  type FieldOptions,
  type HeatField,
  heatInField,
  startField,
  stepField,
  sumOver,
} from './heat-field.js';
import type { HeatProblem } from './heat-problem.js';
import { shortStepTimes } from './short-steps.js';
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
  /** s; left out: as long as the metal needs to give off about a tenth of `heatShare`. */
  readonly firstStep?: number;
  /** A step is at most so much of the time gone, */
  readonly stepShare?: number;
  /** and takes at most about so much of the heat that the metal had over its solidus. */
  readonly heatShare?: number;
  /** Called now and then with the share of the work that is done, 0 to 1. */
  readonly onProgress?: (done: number) => void;
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

/** Never more steps than this in a run, nor a longer time, s: what is not solid then will not be. */
const mostSteps = 3000;
const mostSeconds = 1e7;

/** What comes within so many first steps is not asked how late it is. */
const fewSteps = 20;

/** From step to step they grow no more than this, as a share. */
const growth = 0.1;

/**
 * Cools the full mould until all its metal is solid. Twice, the second time with steps half as long: taking one axis
 * after the other is true to the first order of the step, which `shortStepTimes` takes out of the times.
 */
export function runFreeze(problem: HeatProblem, options: FreezeOptions = {}): FreezeResult {
  const { stepShare = 0.05, heatShare = 0.005, onProgress } = options;
  const field = startField(problem, options);
  const before = heatInField(field);
  const begun = field.content.slice();
  const again = (): void => {
    field.content.set(begun);
    field.temperature.set(problem.start);
    Object.assign(field, { time: 0, lost: 0, turn: 0 });
  };
  const watch = new FreezeWatch(field);
  const firstStep = options.firstStep ?? tryFirstStep(watch, heatShare, again);
  const run = (part: number, progress: (solid: number) => void): number => {
    again();
    return freezeOnce(watch, firstStep * part, stepShare * part, heatShare * part, growth * part, progress);
  };
  const roughSteps = run(2, (solid) => onProgress?.(solid / 3));
  const rough = { stops: watch.stopsAt.slice(), solid: watch.solidAt.slice() };
  const steps = run(1, (solid) => onProgress?.((1 + 2 * solid) / 3));
  const solidMap = shortStepTimes(rough.solid, watch.solidAt, fewSteps * firstStep);
  const stopsMap = shortStepTimes(rough.stops, watch.stopsAt, fewSteps * firstStep);
  const watched = watch.close(stopsMap, solidMap);
  field.time = solidMap(field.time);
  const moved = sumOver(problem, (c) => Math.abs(field.content[c]! - begun[c]!) / 2);
  return {
    ...watched,
    total: watched.solidAt.reduce((a, b) => Math.max(a, b), 0),
    imbalance: Math.abs(before - heatInField(field) - field.lost) / Math.max(moved, 1e-9),
    steps: roughSteps + steps,
    field,
  };
}

/** s in which the metal gives off between a sixteenth and a quarter of `heatShare` of its heat, found by trial. */
function tryFirstStep(watch: FreezeWatch, heatShare: number, again: () => void): number {
  const all = watch.heatLeft;
  let step = 0.05;
  if (all === 0) return step;
  for (let trial = 0; trial < 12; trial++) {
    again();
    stepField(watch.field, step);
    const given = 1 - watch.measureHeat() / all;
    if (given > heatShare / 4) step /= 3;
    else if (given < heatShare / 16 && step < mostSeconds / 1e3) step *= 3;
    else break;
  }
  return step;
}

/** A run from the field as it is until all is solid; its steps. */
function freezeOnce(
  watch: FreezeWatch,
  firstStep: number,
  stepShare: number,
  heatShare: number,
  most: number,
  progress: (solid: number) => void,
): number {
  const { field } = watch;
  watch.restart();
  const all = watch.heatLeft;
  let step = firstStep;
  let steps = 0;
  while (watch.open > 0 && steps < mostSteps && field.time < mostSeconds) {
    const held = watch.heatLeft;
    stepField(field, step);
    watch.after(step);
    steps++;
    progress(1 - watch.open / Math.max(1, watch.all));
    const given = (held - watch.heatLeft) / Math.max(all, 1e-9);
    const change = given > 0 ? Math.min(1 + most, Math.max(0.5, heatShare / given)) : 1 + most;
    step = Math.max(firstStep, Math.min(step * change, stepShare * field.time));
  }
  return steps;
}
