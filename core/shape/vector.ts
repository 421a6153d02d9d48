import type { Vec3 } from '../solid/types.js';

export const plus = (a: Vec3, b: Vec3): Vec3 => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
export const minus = (a: Vec3, b: Vec3): Vec3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
export const times = (a: Vec3, f: number): Vec3 => [a[0] * f, a[1] * f, a[2] * f];
/** a + f b */
export const along = (a: Vec3, b: Vec3, f: number): Vec3 => [
  a[0] + f * b[0],
  a[1] + f * b[1],
  a[2] + f * b[2],
];
export const dot = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const cross = (a: Vec3, b: Vec3): Vec3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
export const lengthOf = (a: Vec3): number => Math.sqrt(dot(a, a));
export const distanceOf = (a: Vec3, b: Vec3): number => lengthOf(minus(a, b));

/** The vector at length 1; a vector of no length stays as it is. */
export function unit(a: Vec3): Vec3 {
  const length = lengthOf(a);
  return length > 0 ? times(a, 1 / length) : a;
}
