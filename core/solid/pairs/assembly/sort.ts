import { pointOf, points, pointsEnd } from './mesh';

/** Counts of 1024 digits. */
const countBytes: usize = 4096;

/**
 * Writes the listed triangles at `order` along a Morton curve through their centres, 10 bits an axis, those of one cell
 * as listed. `spare` holds three words for each of them, `counts` 4096 bytes.
 */
export function sort(list: usize, count: i32, order: usize, spare: usize, counts: usize): void {
  let x0 = f64.MAX_VALUE;
  let y0 = f64.MAX_VALUE;
  let z0 = f64.MAX_VALUE;
  let x1 = -f64.MAX_VALUE;
  let y1 = -f64.MAX_VALUE;
  let z1 = -f64.MAX_VALUE;
  for (let v = points; v < pointsEnd; v += 24) {
    const x = load<f64>(v);
    const y = load<f64>(v + 8);
    const z = load<f64>(v + 16);
    x0 = min(x0, x);
    y0 = min(y0, y);
    z0 = min(z0, z);
    x1 = max(x1, x);
    y1 = max(y1, y);
    z1 = max(z1, z);
  }
  const extent = max(max(x1 - x0, y1 - y0), z1 - z0);
  const cells = 1024 / (extent > 0 ? extent : 1);
  const words: usize = 4 * <usize>count;
  const keys = spare;
  for (let n: usize = 0; n < words; n += 4) {
    const triangle = load<u32>(list + n);
    const a = pointOf(triangle, 0);
    const b = pointOf(triangle, 1);
    const c = pointOf(triangle, 2);
    const key =
      spread(cellOf(a, b, c, 0, x0, cells)) |
      (spread(cellOf(a, b, c, 8, y0, cells)) << 1) |
      (spread(cellOf(a, b, c, 16, z0, cells)) << 2);
    store<u32>(keys + n, key);
    store<u32>(order + n, triangle);
  }
  // Three passes, ten bits each: from keys and order into the spare ones and back; the third ends there.
  pass(keys, order, keys + words, keys + 2 * words, words, 0, counts);
  pass(keys + words, keys + 2 * words, keys, order, words, 10, counts);
  pass(keys, order, keys + words, keys + 2 * words, words, 20, counts);
  memory.copy(order, keys + 2 * words, words);
}

function cellOf(a: usize, b: usize, c: usize, axis: usize, least: f64, cells: f64): u32 {
  const middle = (load<f64>(a + axis) + load<f64>(b + axis) + load<f64>(c + axis)) / 3;
  return <u32>min(1023.0, max(0.0, floor((middle - least) * cells)));
}

/** Two empty bits between the bits of a 10-bit number. */
function spread(x: u32): u32 {
  let v = x;
  v = (v | (v << 16)) & 0x030000ff;
  v = (v | (v << 8)) & 0x0300f00f;
  v = (v | (v << 4)) & 0x030c30c3;
  return (v | (v << 2)) & 0x09249249;
}

function pass(
  keys: usize,
  values: usize,
  toKeys: usize,
  toValues: usize,
  words: usize,
  shift: u32,
  counts: usize,
): void {
  memory.fill(counts, 0, countBytes);
  for (let n: usize = 0; n < words; n += 4) {
    const at = counts + 4 * <usize>((load<u32>(keys + n) >> shift) & 1023);
    store<u32>(at, load<u32>(at) + 4);
  }
  let sum: u32 = 0;
  for (let at = counts; at < counts + countBytes; at += 4) {
    const here = load<u32>(at);
    store<u32>(at, sum);
    sum += here;
  }
  for (let n: usize = 0; n < words; n += 4) {
    const key = load<u32>(keys + n);
    const at = counts + 4 * <usize>((key >> shift) & 1023);
    const to = <usize>load<u32>(at);
    store<u32>(at, to + 4);
    store<u32>(toKeys + to, key);
    store<u32>(toValues + to, load<u32>(values + n));
  }
}
