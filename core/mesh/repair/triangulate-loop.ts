import { cross, distanceOf, lengthOf, minus } from '../../shape/vector.js';
import type { Vec3 } from '../../solid/types.js';

/** Heavier than any real area: a triangle without area, or over an edge that is there already. */
const shunned = 1e6;

/**
 * Triangles over a loop of corners with the least area in all, three places in the loop each, running as the loop runs
 * (Klincsek, "Minimal triangulations of polygonal domains", 1980). Over a flat loop none of them overlap. Null where
 * every way has a triangle without area or an edge that is taken. Time goes by the cube of the corners.
 *
 * @param isTaken whether the places are joined by an edge already
 */
export function triangulateLoop(
  points: readonly Vec3[],
  isTaken: (i: number, j: number) => boolean,
): readonly (readonly [number, number, number])[] | null {
  const n = points.length;
  const size = points.reduce((most, p) => Math.max(most, distanceOf(p, points[0]!)), 0);
  const weigh = (i: number, j: number, k: number): number => {
    const [a, b, c] = [points[i]!, points[j]!, points[k]!];
    const area = lengthOf(cross(minus(b, a), minus(c, a))) / (size * size);
    const longest = Math.max(distanceOf(a, b), distanceOf(b, c), distanceOf(c, a)) / size;
    return area < 1e-7 * longest * longest ? shunned : area;
  };
  const weights = new Float64Array(n * n);
  const middles = new Int32Array(n * n);
  for (let span = 2; span < n; span++)
    for (let i = 0; i + span < n; i++) {
      const k = i + span;
      let best = Infinity;
      for (let j = i + 1; j < k; j++) {
        const weight = weights[n * i + j]! + weights[n * j + k]! + weigh(i, j, k);
        if (weight < best) {
          best = weight;
          middles[n * i + k] = j;
        }
      }
      weights[n * i + k] = best + (span < n - 1 && isTaken(i, k) ? shunned : 0);
    }
  if (weights[n - 1]! >= shunned) return null;
  const made: [number, number, number][] = [];
  const stack: [number, number][] = [[0, n - 1]];
  for (let span = stack.pop(); span; span = stack.pop()) {
    const [i, k] = span;
    if (k - i < 2) continue;
    const j = middles[n * i + k]!;
    made.push([i, j, k]);
    stack.push([i, j], [j, k]);
  }
  return made;
}
