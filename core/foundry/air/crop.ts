import { maths } from '../../maths/maths.js';
import { type Cavity, readCavity } from './cavity.js';
import { upwardNormal } from './tops.js';

/** The upper part of a cavity, enough to search it while it leans a little. */
export interface Crop {
  readonly cavity: Cavity;
  /** Of each vertex its number in the whole. */
  readonly numbers: Uint32Array;
  /** All that is left out, and the edge of what is not, lies below it however the cavity leans, mm along its lean. */
  readonly floor: number;
}

/**
 * What lies under all tops that a cavity can have when it leans by up to `angle` any way. No vertex with an edge that
 * rises steeper than that can be one. Null where hardly anything would be left out. Upright cavities only.
 */
export function cropToTops(cavity: Cavity, angle: number): Crop | null {
  const { mesh, heights, plan, starts } = cavity;
  const t = mesh.triangles;
  const slope = maths.tan(angle) + 1e-6;
  const count = heights.length;
  const under = new Uint8Array(count);
  for (let f = 0; f < t.length; f += 3)
    for (let k = 0; k < 3; k++) {
      const [a, b] = [t[f + k]!, t[f + (k === 2 ? 0 : k + 1)]!];
      const rise = heights[b]! - heights[a]!;
      const [dx, dy] = [plan[2 * b]! - plan[2 * a]!, plan[2 * b + 1]! - plan[2 * a + 1]!];
      const least = slope * Math.sqrt(dx * dx + dy * dy);
      if (rise > least) under[a] = 1;
      else if (-rise > least) under[b] = 1;
    }
  let [lowestTop, bottom, radius] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, 0];
  for (let v = 0; v < count; v++) {
    if (starts[v] === starts[v + 1]) continue;
    bottom = Math.min(bottom, heights[v]!);
    radius = Math.max(radius, maths.hypot(plan[2 * v]!, plan[2 * v + 1]!));
    // A vertex in a roof faces down by more than the lean: −0.3 of at most 2π.
    if (under[v] === 0 && heights[v]! < lowestTop && upwardNormal(cavity, v) >= -0.3) lowestTop = heights[v]!;
  }
  const reach = radius * maths.sin(angle);
  const cut = lowestTop - 2 * reach - 1;
  if (!(cut > bottom)) return null;
  const renumbered = new Int32Array(count).fill(-1);
  const numbers: number[] = [];
  const triangles: number[] = [];
  for (let f = 0; f < t.length; f += 3) {
    if (heights[t[f]!]! < cut && heights[t[f + 1]!]! < cut && heights[t[f + 2]!]! < cut) continue;
    for (let k = f; k < f + 3; k++) {
      const v = t[k]!;
      if (renumbered[v]! < 0) renumbered[v] = numbers.push(v) - 1;
      triangles.push(renumbered[v]!);
    }
  }
  const positions = new Float32Array(3 * numbers.length);
  for (let i = 0; i < numbers.length; i++)
    for (let k = 0; k < 3; k++) positions[3 * i + k] = mesh.positions[3 * numbers[i]! + k]!;
  return {
    cavity: readCavity({ positions, triangles: Uint32Array.from(triangles) }),
    numbers: Uint32Array.from(numbers),
    floor: cut * maths.cos(angle) + reach,
  };
}
