import { isFlat, trianglesCross } from '../../solid/triangle-crossing.js';
import { forDoubtfulPairs } from '../../solid/triangle-pairs.js';

/**
 * Pairs of triangles of a surface, its corners joined, that meet in more than they share. Exact. Triangles without area
 * are left out; how many there are.
 *
 * @param changed 1 for triangles of which one at least is in every pair asked for; all if left out
 * @param known pairs of triangles for which it is 1 are passed over
 */
export function forCrossings(
  p: Float64Array,
  t: Uint32Array,
  visit: (i: number, j: number) => void,
  { changed, known }: { changed?: Uint8Array; known?: Uint8Array } = {},
): number {
  const corners = { p, t };
  const list = new Uint32Array(t.length / 3);
  const isNear = changed ? nearOnes(p, t, changed) : null;
  let [size, flat] = [0, 0];
  for (let i = 0; i < t.length / 3; i++) {
    if (isNear && !isNear(i)) continue;
    if (isFlat(corners, i)) flat++;
    else list[size++] = i;
  }
  if (size === 0) return flat;
  forDoubtfulPairs(corners, list.subarray(0, size), (i, j) => {
    if (changed && changed[i] === 0 && changed[j] === 0) return false;
    if (known && known[i] === 1 && known[j] === 1) return false;
    if (trianglesCross(corners, i, j)) visit(i, j);
    return false;
  });
  return flat;
}

/** Whether a triangle may reach one of those that changed, by cells that these fill. */
function nearOnes(p: Float64Array, t: Uint32Array, changed: Uint8Array): (i: number) => boolean {
  const min = [0, 0, 0];
  const max = [0, 0, 0];
  const box = (i: number): void => {
    for (let k = 0; k < 3; k++) {
      const [a, b, c] = [p[3 * t[3 * i]! + k]!, p[3 * t[3 * i + 1]! + k]!, p[3 * t[3 * i + 2]! + k]!];
      min[k] = Math.min(a, b, c);
      max[k] = Math.max(a, b, c);
    }
  };
  let [sum, count] = [0, 0];
  for (let i = 0; i < changed.length; i++) {
    if (changed[i] === 0) continue;
    box(i);
    sum += Math.max(max[0]! - min[0]!, max[1]! - min[1]!, max[2]! - min[2]!);
    count++;
  }
  const cell = Math.max((2 * sum) / Math.max(1, count), 1e-3);
  const cells = new Set<number>();
  const reach = (visit: (key: number) => boolean): boolean => {
    const [lo, hi] = [min, max].map((v) => v.map((x) => Math.floor(x / cell))) as [number[], number[]];
    for (let x = lo[0]!; x <= hi[0]!; x++)
      for (let y = lo[1]!; y <= hi[1]!; y++)
        for (let z = lo[2]!; z <= hi[2]!; z++)
          if (visit(((x & 0xffff) * 65536 + (y & 0xffff)) * 65536 + (z & 0xffff))) return true;
    return false;
  };
  for (let i = 0; i < changed.length; i++) {
    if (changed[i] === 0) continue;
    box(i);
    reach((key) => {
      cells.add(key);
      return false;
    });
  }
  return (i) => {
    if (changed[i] === 1) return true;
    box(i);
    return reach((key) => cells.has(key));
  };
}
