/**
 * Sweeps of a field along one axis. The work is cut into units, a plane of lines each, that any number of hands take one
 * by one; lines know nothing of one another and sums are kept by unit, so the result is the same whoever does what.
 */
import {
  atAxis,
  atCounts,
  atDone,
  atExposed,
  atFaces,
  atFirst,
  atLast,
  atLengths,
  atLimit,
  atLost,
  atNext,
  atScratch,
  atScratchBytes,
  atSeconds,
  atShut,
  atStop,
  recordBytes,
} from '../layout';
import { head, word } from './lanes';
import { placeLanes, setExposed, solveLines } from './lines';

/** ns that a hand sleeps at most before it looks whether it is to leave. */
const nap: i64 = 50_000_000;

/** How often it looks for more before it does: some tens of µs, about what waking takes. */
const looks = 5000;

/** Cells along an axis; address of their lengths. */
function cells(axis: i32): i32 {
  return word(atCounts + 4 * axis);
}
function lengthsOf(axis: i32): usize {
  return word(atLengths + 4 * axis);
}

/** A plane of lines: of a z for those along x and y, of a y for those along z. */
function sweepUnit(unit: i32, hand: i32): void {
  const axis: i32 = word(atAxis);
  const nx = <usize>cells(0);
  const row = 4 * nx;
  const plane = row * <usize>cells(1);
  const step = axis === 0 ? 4 : axis === 1 ? row : plane;
  const begin = <usize>unit * (axis === 2 ? row : plane);
  // Lines along x lie side by side in y, all others in x.
  const beside = axis === 0 ? 1 : 0;
  const across = axis === 0 ? row : 4;
  const widths = lengthsOf(beside);
  const depth = <f64>load<f32>(lengthsOf(axis === 2 ? 1 : 2) + ((<usize>unit) << 3));
  const scratch = word(atScratch) + <usize>hand * word(atScratchBytes) + recordBytes;
  const open = (word(atShut) & (1 << axis)) === 0;
  const lines = cells(beside);
  setExposed(head(atExposed + 4 * axis));
  let lost: f64 = 0;
  for (let n = 0; n < lines; n += 4) {
    const lanes = min(4, lines - n);
    placeLanes(across, lanes);
    const out = solveLines(
      begin + <usize>n * across,
      step,
      cells(axis),
      lengthsOf(axis),
      word(atFaces + 4 * axis),
      head(atSeconds),
      open,
      word(atLast) !== 0,
      scratch,
    );
    const width = widths + ((<usize>n) << 3);
    lost += <f64>f32x4.extract_lane(out, 0) * <f64>load<f32>(width);
    if (lanes > 1) lost += <f64>f32x4.extract_lane(out, 1) * <f64>load<f32>(width, 8);
    if (lanes > 2) lost += <f64>f32x4.extract_lane(out, 2) * <f64>load<f32>(width, 16);
    if (lanes > 3) lost += <f64>f32x4.extract_lane(out, 3) * <f64>load<f32>(width, 24);
  }
  store<f64>(word(atLost) + ((<usize>unit) << 3), lost * depth);
}

/** Takes units until none is left. */
function work(hand: i32): void {
  while (true) {
    const next = atomic.load<i32>(atNext);
    if (next >= atomic.load<i32>(atLimit)) return;
    if (atomic.cmpxchg<i32>(atNext, next, next + 1) !== next) continue;
    sweepUnit(next - atomic.load<i32>(atFirst), hand);
    atomic.add<i32>(atDone, 1);
  }
}

/** Carries the field on along an axis by some seconds, with all hands; J given to the surroundings. */
export function sweep(axis: i32, seconds: f32, last: bool): f64 {
  const units = cells(axis === 2 ? 1 : 2);
  const first = atomic.load<i32>(atLimit);
  store<i32>(atAxis, axis);
  store<f32>(atSeconds, seconds);
  store<i32>(atLast, last ? 1 : 0);
  atomic.store<i32>(atFirst, first);
  atomic.store<i32>(atLimit, first + units);
  atomic.notify(atLimit, -1);
  work(0);
  while (atomic.load<i32>(atDone) !== first + units);
  let lost: f64 = 0;
  const sums: usize = word(atLost);
  for (let unit = 0; unit < units; unit++) lost += load<f64>(sums + ((<usize>unit) << 3));
  return lost;
}

/** A further hand's day: works whenever there is work, until it is told to leave. Looks about before it sleeps. */
export function serve(hand: i32): void {
  while (atomic.load<i32>(atStop) === 0) {
    const limit = atomic.load<i32>(atLimit);
    work(hand);
    for (let n = 0; n < looks && atomic.load<i32>(atLimit) === limit; n++);
    atomic.wait<i32>(atLimit, limit, nap);
  }
}
