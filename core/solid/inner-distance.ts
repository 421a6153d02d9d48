import { maths } from '../maths/maths.js';
import { passColumns } from './columns.js';
import { measureBounds } from './mesh-bounds.js';
import type { Box, Mesh, Vec3 } from './types.js';

/** Cells along the longest side: distances are then within about a tenth, which is all that rules of thumb bear. */
const cellsAcross = 30;

interface Grid {
  readonly size: number;
  readonly origin: Vec3;
  readonly counts: readonly [number, number, number];
  /** 1 where there is metal. */
  readonly filled: Uint8Array;
}

/**
 * Distances through the inside of a closed mesh from each point to every cell of metal, mm: shortest paths over a
 * grid's 26 neighbours (at most 9 % over the straight line in open metal). Cells that hold any surface count as metal,
 * so thin walls are not lost. What cannot be reached is at Infinity. Points outside the metal start at the nearest cell
 * of it. The arrays are parallel to one another, a number a cell.
 */
export function measureInnerDistances(mesh: Mesh, points: readonly Vec3[]): readonly Float64Array[] {
  const grid = fillGrid(mesh);
  return points.map((point) => distancesFrom(grid, point));
}

function fillGrid(mesh: Mesh): Grid {
  const { min, max } = measureBounds(mesh) as Box;
  const size = Math.max(max[0] - min[0], max[1] - min[1], max[2] - min[2]) / cellsAcross;
  const count = (axis: 0 | 1 | 2): number => Math.max(1, Math.ceil((max[axis] - min[axis]) / size + 1e-9));
  const counts = [count(0), count(1), count(2)] as const;
  const filled = new Uint8Array(counts[0] * counts[1] * counts[2]);
  const grid: Grid = { size, origin: min, counts, filled };
  const { positions, triangles } = mesh;
  const corner = (t: number): Vec3 => {
    const i = 3 * (triangles[t] as number);
    return [positions[i] as number, positions[i + 1] as number, positions[i + 2] as number];
  };
  for (let t = 0; t < triangles.length; t += 3) markSurface(grid, corner(t), corner(t + 1), corner(t + 2));
  fillInside(grid, mesh);
  return grid;
}

const clampIndex = (value: number, count: number): number =>
  Math.min(count - 1, Math.max(0, Math.floor(value)));

function indexAt({ size, origin, counts }: Grid, [x, y, z]: Vec3): number {
  const i = clampIndex((x - origin[0]) / size, counts[0]);
  const j = clampIndex((y - origin[1]) / size, counts[1]);
  const k = clampIndex((z - origin[2]) / size, counts[2]);
  return i + counts[0] * (j + counts[1] * k);
}

/** Marks the cells a triangle passes, by points on it half a cell apart. */
function markSurface(grid: Grid, a: Vec3, b: Vec3, c: Vec3): void {
  const longest = Math.max(distance(a, b), distance(b, c), distance(c, a));
  const n = Math.max(1, Math.ceil((2 * longest) / grid.size));
  for (let i = 0; i <= n; i++)
    for (let j = 0; j <= n - i; j++) {
      const [u, v] = [i / n, j / n];
      const at = (k: 0 | 1 | 2): number => a[k] + u * (b[k] - a[k]) + v * (c[k] - a[k]);
      grid.filled[indexAt(grid, [at(0), at(1), at(2)])] = 1;
    }
}

/** Fills the cells whose middles lie inside, column by column. */
function fillInside({ size, origin, counts, filled }: Grid, mesh: Mesh): void {
  const middles = (axis: 0 | 1): Float64Array =>
    Float64Array.from({ length: counts[axis] }, (_, i) => origin[axis] + (i + 0.5) * size);
  const { starts, heights } = passColumns(mesh, middles(0), middles(1));
  const layer = counts[0] * counts[1];
  for (let column = 0; column < layer; column++)
    for (let n = starts[column] as number; n + 1 < (starts[column + 1] as number); n += 2) {
      const from = Math.ceil(((heights[n] as number) - origin[2]) / size - 0.5);
      const to = Math.floor(((heights[n + 1] as number) - origin[2]) / size - 0.5);
      for (let k = Math.max(0, from); k <= Math.min(to, counts[2] - 1); k++) filled[column + layer * k] = 1;
    }
}

const distance = (a: Vec3, b: Vec3): number => maths.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);

/** Shortest paths by buckets a fifth of a cell wide: the lengths are whole multiples of 1, √2, √3 cells, near enough. */
function distancesFrom(grid: Grid, point: Vec3): Float64Array {
  const { counts, filled, size } = grid;
  const best = new Float64Array(filled.length).fill(Number.POSITIVE_INFINITY);
  const start = nearestFilled(grid, point);
  if (start < 0) return new Float64Array(0);
  best[start] = 0;
  const steps = neighbourSteps;
  const buckets: number[][] = [[start]];
  for (let b = 0; b < buckets.length; b++) {
    const bucket = buckets[b] ?? [];
    // The bucket grows while it is worked through.
    for (let n = 0; n < bucket.length; n++) {
      const cell = bucket[n] as number;
      const here = best[cell] as number;
      if (Math.floor(here * 5) < b) continue;
      const i = cell % counts[0];
      const j = Math.floor(cell / counts[0]) % counts[1];
      const k = Math.floor(cell / (counts[0] * counts[1]));
      for (const [di, dj, dk, length] of steps) {
        const [p, q, r] = [i + di, j + dj, k + dk];
        if (p < 0 || q < 0 || r < 0 || p >= counts[0] || q >= counts[1] || r >= counts[2]) continue;
        const next = p + counts[0] * (q + counts[1] * r);
        if (filled[next] === 0 || here + length >= (best[next] as number)) continue;
        best[next] = here + length;
        const into = Math.floor((here + length) * 5);
        const found = buckets[into];
        if (found) found.push(next);
        else {
          while (buckets.length < into) buckets.push([]);
          buckets[into] = [next];
        }
      }
    }
  }
  return best.filter((_, cell) => filled[cell] === 1).map((cells) => cells * size);
}

const neighbourSteps: readonly (readonly [number, number, number, number])[] = [-1, 0, 1].flatMap((i) =>
  [-1, 0, 1].flatMap((j) =>
    [-1, 0, 1]
      .filter((k) => i !== 0 || j !== 0 || k !== 0)
      .map((k) => [i, j, k, maths.hypot(i, j, k)] as const),
  ),
);

function nearestFilled(grid: Grid, point: Vec3): number {
  const { counts, filled, origin, size } = grid;
  let [best, least] = [-1, Number.POSITIVE_INFINITY];
  for (let c = 0; c < filled.length; c++) {
    if (filled[c] === 0) continue;
    const middle: Vec3 = [
      origin[0] + ((c % counts[0]) + 0.5) * size,
      origin[1] + ((Math.floor(c / counts[0]) % counts[1]) + 0.5) * size,
      origin[2] + (Math.floor(c / (counts[0] * counts[1])) + 0.5) * size,
    ];
    const far = distance(middle, point);
    if (far < least) [best, least] = [c, far];
  }
  return best;
}
