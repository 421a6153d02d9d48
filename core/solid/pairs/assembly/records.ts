/**
 * What is asked of a triangle again and again, in 64 bytes, a line of most caches: where its corners' points stand, its
 * number, and its normal. Records are in the order of the search, so that neighbours lie near each other.
 */
import { pointOf } from './mesh';

const recordBytes: usize = 64;

let records: usize = 0;

/** The addresses of the three points of the triangle that is the n-th of the order. */
export function pointsAt(n: i32): usize {
  return records + recordBytes * n;
}

export function triangleAt(n: i32): u32 {
  return load<u32>(records + recordBytes * n, 12);
}

/** Its normal, as `layNormal` has it. */
export function normalAt(n: i32): usize {
  return records + recordBytes * n + 16;
}

export function layRecords(atRecords: usize, order: usize, count: i32): void {
  records = atRecords;
  for (let n = 0; n < count; n++) {
    const triangle = load<u32>(order + 4 * n);
    const a = pointOf(triangle, 0);
    const b = pointOf(triangle, 1);
    const c = pointOf(triangle, 2);
    const at = pointsAt(n);
    store<usize>(at, a);
    store<usize>(at, b, 4);
    store<usize>(at, c, 8);
    store<u32>(at, triangle, 12);
    const x = load<f64>(a);
    const y = load<f64>(a, 8);
    const z = load<f64>(a, 16);
    layNormal(
      normalAt(n),
      load<f64>(b) - x,
      load<f64>(b, 8) - y,
      load<f64>(b, 16) - z,
      load<f64>(c) - x,
      load<f64>(c, 8) - y,
      load<f64>(c, 16) - z,
    );
  }
}

/** u × v and, for its rounding, the sums of its terms without their signs: six doubles. */
export function layNormal(at: usize, ux: f64, uy: f64, uz: f64, vx: f64, vy: f64, vz: f64): void {
  const yz = uy * vz;
  const zy = uz * vy;
  const zx = uz * vx;
  const xz = ux * vz;
  const xy = ux * vy;
  const yx = uy * vx;
  store<f64>(at, yz - zy);
  store<f64>(at, zx - xz, 8);
  store<f64>(at, xy - yx, 16);
  store<f64>(at, abs(yz) + abs(zy), 24);
  store<f64>(at, abs(zx) + abs(xz), 32);
  store<f64>(at, abs(xy) + abs(yx), 40);
}
