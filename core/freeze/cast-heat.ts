import type { Alloy } from '../foundry/alloys/index.js';
import type { Investment } from '../foundry/investment.js';
import type { CastCells } from './cast-cells.js';
import { contactResistance, freezingMetal, mouldSubstance, surroundingsOf } from './cast-substances.js';
import { type FreezeOptions, type FreezeResult, mixedStart, runFreeze } from './freeze.js';
import { type FieldOptions, startField, stepField } from './heat-field.js';
import type { HeatProblem } from './heat-problem.js';

/** How a mould comes to the pour. */
export interface CastStart {
  /** °C of the metal as it runs in, and of the mould as it leaves the kiln. */
  readonly metal: number;
  readonly mould: number;
  /** s from the kiln until it is full. */
  readonly delay: number;
  readonly stands: 'in its flask' | 'bare' | 'in dry sand';
}

/** Steps of the way from the kiln. */
const delaySteps = 8;

/**
 * °C of every cell of the mould after its way from the kiln, hollows taken as full of mould: over a few minutes little
 * heat comes out of them. A shell is told what its inner face has at the pour: it has none of this.
 */
function mouldAtPour(
  problem: HeatProblem,
  { mould, delay, stands }: CastStart,
  crew: FieldOptions,
): number | Float32Array {
  if (delay <= 0 || stands !== 'in its flask') return mould;
  const { size } = problem.grid;
  const empty = { ...problem, share: new Float32Array(size), start: new Float32Array(size).fill(mould) };
  const field = startField(empty, crew);
  for (let i = 0; i < delaySteps; i++) stepField(field, delay / delaySteps);
  return Float32Array.from(field.temperature);
}

/** Cools a full mould from the pour until all its metal is solid. */
export function freezeCells(
  cells: CastCells,
  { alloy, investment }: { readonly alloy: Alloy; readonly investment: Investment },
  start: CastStart,
  options: FreezeOptions,
): FreezeResult {
  const [metal, mould] = [freezingMetal(alloy), mouldSubstance(investment)];
  const { grid, share, present, exposed } = cells;
  const problem: HeatProblem = {
    grid,
    share,
    present,
    metal,
    mould,
    contactResistance,
    surroundings: surroundingsOf(start.stands, alloy.family),
    exposed,
    start: new Float32Array(grid.size).fill(start.mould),
  };
  const mouldTemperature = mouldAtPour(problem, start, options);
  return runFreeze({ ...problem, start: mixedStart(problem, start.metal, mouldTemperature) }, options);
}

/** Later steps of cooling as a share of the time gone: only one time is wanted of them. */
const coolingShare = 0.12;

/**
 * s from the full mould until all its metal is under `temperature` °C, the field carried on in place; infinite where it
 * is not after a day.
 */
export function coolUnder({ field }: FreezeResult, { share }: CastCells, temperature: number): number {
  const metal: number[] = [];
  for (let c = 0; c < share.length; c++) if (share[c]! >= 0.5) metal.push(c);
  const hottest = (): number => {
    let most = Number.NEGATIVE_INFINITY;
    for (const c of metal) most = Math.max(most, field.temperature[c]!);
    return most;
  };
  let [then, was] = [field.time, hottest()];
  while (was > temperature) {
    if (field.time > longestCooling) return Number.POSITIVE_INFINITY;
    stepField(field, coolingShare * field.time);
    const now = hottest();
    if (now <= temperature)
      return then + ((field.time - then) * (was - temperature)) / Math.max(was - now, 1e-9);
    [then, was] = [field.time, now];
  }
  return then;
}

const longestCooling = 24 * 3600;
