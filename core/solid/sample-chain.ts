import { maths } from '../maths/maths.js';
import { distanceToSegment, type PlaneCurve, type SampledCurve } from './sample-curve.js';
import type { Vec2 } from './types.js';

/** Curves that follow one another, each beginning where the last ends, as one over the parameter 0 … their number. */
export function joinCurves(curves: readonly PlaneCurve[]): PlaneCurve {
  const last = curves.length - 1;
  return {
    from: 0,
    to: curves.length,
    at: (u) => {
      const i = Math.min(last, Math.max(0, Math.floor(u)));
      const { from, to, at } = curves[i] as PlaneCurve;
      return at(from + (u - i) * (to - from));
    },
  };
}

export interface ChainOptions {
  /**
   * What a distance in the plane counts for at a point with this unit normal, which is to the right; 1 when left out.
   * `bend` works out the curvature there, 1/mm, positive where the curve turns left.
   */
  readonly share?: (point: Vec2, normal: Vec2, bend: () => number) => number;
  /** The chain is its own mirror image, run backwards; so will the points be. */
  readonly symmetric?: boolean;
}

/** Points of the fine table to a chord; with these the table misses a five-hundredth of a chord's error at most. */
const rowsAChord = 24;
const leastRows = 24;
/** Far more than any sound curve needs. */
const mostRows = 400_000;
const slack = 0.995;

/** How many chords a chain takes, and on demand where they end, which takes ten times as long to find. */
export interface ChainPlan {
  readonly chords: number;
  readonly sample: () => SampledCurve;
}

/**
 * The fewest chords along a chain of smoothly joined curves that stay within `tolerance` (mm) of it, with its ends but
 * not its joints among their corners. Each chord goes as far as it can, which for the last to arrive needs no more
 * than any other way; then all errors are made alike, the least that this number of chords can have.
 */
export function planChain(
  curves: readonly PlaneCurve[],
  tolerance: number,
  options: ChainOptions = {},
): ChainPlan {
  const table = tableOf(curves, tolerance, options.share ?? (() => 1));
  const goal = tolerance * slack;
  const longest = walk(table, goal, Number.POSITIVE_INFINITY) as readonly number[];
  const chords = longest.length - 1;
  return { chords, sample: () => sampleTable(table, longest, goal, curves, options.symmetric === true) };
}

function sampleTable(
  table: Table,
  longest: readonly number[],
  goal: number,
  curves: readonly PlaneCurve[],
  symmetric: boolean,
): SampledCurve {
  let parameters = longest;
  const chords = longest.length - 1;
  let [fails, holds] = [0, goal];
  for (let i = 0; i < 12 && chords > 1; i++) {
    const middle = (fails + holds) / 2;
    const walked = walk(table, middle, chords);
    if (walked) [parameters, holds] = [walked, middle];
    else fails = middle;
  }
  if (symmetric) {
    const whole = table.u[table.u.length - 1] as number;
    const even = parameters.map((u, k) => (u + whole - (parameters[chords - k] as number)) / 2);
    if (even.every((u, k) => k === 0 || holdsBetween(table, even[k - 1] as number, u, goal)))
      parameters = even;
  }
  const { at } = joinCurves(curves);
  return { parameters, points: parameters.map(at) };
}

/** A fine polyline of the chain: parameters, points and the shares there. */
interface Table {
  readonly u: readonly number[];
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly share: readonly number[];
}

function tableOf(
  curves: readonly PlaneCurve[],
  tolerance: number,
  shareAt: NonNullable<ChainOptions['share']>,
): Table {
  const table = { u: [] as number[], x: [] as number[], y: [] as number[], share: [] as number[] };
  curves.forEach((curve, i) => {
    const needed = rowsAChord * chordsOf(curve, tolerance);
    if (!(needed <= mostRows)) {
      throw new RangeError(`a curve cannot be sampled to ${tolerance} mm: ${needed} points are not enough`);
    }
    const rows = Math.max(leastRows, Math.ceil(needed));
    for (let k = i === 0 ? 0 : 1; k <= rows; k++) {
      const f = k / rows;
      const point = curve.at(curve.from + f * (curve.to - curve.from));
      const a = curve.at(curve.from + Math.max(0, f - 1e-4) * (curve.to - curve.from));
      const b = curve.at(curve.from + Math.min(1, f + 1e-4) * (curve.to - curve.from));
      const length = maths.hypot(b[0] - a[0], b[1] - a[1]) || 1;
      table.u.push(i + f);
      table.x.push(point[0]);
      table.y.push(point[1]);
      const normal = [(b[1] - a[1]) / length, (a[0] - b[0]) / length] as const;
      table.share.push(shareAt(point, normal, () => bendAt(curve, f)));
    }
  });
  return table;
}

/** Curvature, 1/mm, of a curve at the share `f` of its interval, positive where it turns left; from three near points. */
export function bendAt({ from, to, at }: PlaneCurve, f: number): number {
  const step = 1e-3;
  const middle = Math.min(1 - step, Math.max(step, f));
  const [a, b, c] = [-step, 0, step].map((d) => at(from + (middle + d) * (to - from))) as [Vec2, Vec2, Vec2];
  const cross = (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0]);
  const sides =
    maths.hypot(b[0] - a[0], b[1] - a[1]) *
    maths.hypot(c[0] - b[0], c[1] - b[1]) *
    maths.hypot(c[0] - a[0], c[1] - a[1]);
  return sides > 0 ? (2 * cross) / sides : 0;
}

/** About how many chords a curve needs: ∫√κ ds / √(8 tolerance), from little arcs whose sagitta is κ h²/8. */
function chordsOf(curve: PlaneCurve, tolerance: number): number {
  const steps = 16;
  const step = (curve.to - curve.from) / steps;
  let total = 0;
  for (let i = 0; i < steps; i++) {
    const t = curve.from + i * step;
    total += Math.sqrt(
      distanceToSegment(curve.at(t + step / 2), curve.at(t), curve.at(t + step)) / tolerance,
    );
  }
  return total;
}

/** Corners of the chain of chords that each go as far as `error` allows; undefined when more than `most` are needed. */
function walk(table: Table, error: number, most: number): readonly number[] | undefined {
  const end = table.u.length - 1;
  const rows = [0];
  for (let at = 0; at < end; ) {
    if (rows.length > most) return undefined;
    at = reachFrom(table, at, error);
    rows.push(at);
  }
  return rows.map((row) => parameterAt(table, row));
}

const parameterAt = (table: Table, row: number): number => between(table.u, row);

/** Value at a place between the rows. */
function between(column: readonly number[], row: number): number {
  const i = Math.min(column.length - 2, Math.floor(row));
  const f = row - i;
  return (1 - f) * (column[i] as number) + f * (column[i + 1] as number);
}

/** The furthest place, in rows, to which a chord from `from` holds. */
function reachFrom(table: Table, from: number, error: number): number {
  const end = table.u.length - 1;
  const first = Math.floor(from) + 1;
  let holds = first;
  let step = 1;
  while (holds < end && holdsTo(table, from, Math.min(end, holds + step), error)) {
    holds = Math.min(end, holds + step);
    step *= 2;
  }
  if (holds === end) return end;
  let fails = Math.min(end, holds + step);
  while (fails - holds > 1e-3) {
    const middle = fails - holds > 1.5 ? Math.floor((fails + holds) / 2) : (fails + holds) / 2;
    if (holdsTo(table, from, middle, error)) holds = middle;
    else fails = middle;
  }
  return holds;
}

function holdsTo(table: Table, from: number, to: number, error: number): boolean {
  const { x, y, share } = table;
  const ax = between(x, from);
  const ay = between(y, from);
  const dx = between(x, to) - ax;
  const dy = between(y, to) - ay;
  const squared = dx * dx + dy * dy;
  for (let k = Math.floor(from) + 1; k < to; k++) {
    const px = (x[k] as number) - ax;
    const py = (y[k] as number) - ay;
    const f = squared === 0 ? 0 : Math.min(1, Math.max(0, (px * dx + py * dy) / squared));
    const ex = px - f * dx;
    const ey = py - f * dy;
    const allowed = error / (share[k] as number);
    if (ex * ex + ey * ey > allowed * allowed) return false;
  }
  return true;
}

/** The same for parameters of the chain. */
function holdsBetween(table: Table, u0: number, u1: number, error: number): boolean {
  return holdsTo(table, rowAt(table, u0), rowAt(table, u1), error);
}

function rowAt({ u }: Table, parameter: number): number {
  let [low, high] = [0, u.length - 1];
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if ((u[middle] as number) <= parameter) low = middle;
    else high = middle;
  }
  return low + (parameter - (u[low] as number)) / ((u[high] as number) - (u[low] as number));
}
