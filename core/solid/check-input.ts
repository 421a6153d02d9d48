import { SolidError } from './errors.js';
import type { Polygon, Vec2, Vec3 } from './types.js';

/** Throws `bad-size` unless the value is a finite number. */
export function checkFinite(value: number, what: string): number {
  if (typeof value !== 'number' || !Number.isFinite(value))
    throw new SolidError('bad-size', `${what} is ${value}; a finite number is needed`);
  return value;
}

/** Throws `bad-size` unless the value is finite and above zero. */
export function checkPositive(value: number, what: string): number {
  if (checkFinite(value, what) <= 0)
    throw new SolidError('bad-size', `${what} is ${value}; it must be greater than 0`);
  return value;
}

/** Throws `bad-size` unless x, y and z are finite. */
export function checkVec3(v: Vec3, what: string): Vec3 {
  if (v.length !== 3) throw new SolidError('bad-size', `${what} has ${v.length} coordinates; 3 are needed`);
  for (let i = 0; i < 3; i++) checkFinite(v[i]!, `${what} ${'xyz'[i]}`);
  return v;
}

/** Throws `bad-size` unless both coordinates are finite. */
export function checkVec2(v: Vec2, what: string): Vec2 {
  if (v.length !== 2) throw new SolidError('bad-size', `${what} has ${v.length} coordinates; 2 are needed`);
  checkFinite(v[0], `${what} first coordinate`);
  checkFinite(v[1], `${what} second coordinate`);
  return v;
}

/** Twice-signed-area rule: positive for a counter-clockwise polygon, mm². */
export function measureArea(polygon: Polygon): number {
  let sum = 0;
  const o = polygon[0];
  if (!o) return 0;
  for (let i = 1; i + 1 < polygon.length; i++) {
    const a = polygon[i]!;
    const b = polygon[i + 1]!;
    sum += (a[0] - o[0]) * (b[1] - o[1]) - (a[1] - o[1]) * (b[0] - o[0]);
  }
  return sum / 2;
}

/** Throws unless the polygon has three or more finite points. */
export function checkPolygon(polygon: Polygon, what: string): void {
  if (polygon.length < 3)
    throw new SolidError('bad-outline', `${what} has ${polygon.length} points; at least 3 are needed`);
  for (const [i, point] of polygon.entries()) checkVec2(point, `${what} point ${i}`);
}
