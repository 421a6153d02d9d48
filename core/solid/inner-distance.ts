import { passColumns } from './columns.js';
import { measureBounds } from './mesh-bounds.js';
import type { Box, Mesh, Vec3 } from './types.js';

/** Cells along the longest side: distances are then within about a tenth, which is all that rules of thumb bear. */
const cellsAcross = 30;

/** With a rim of empty cells all round, so that neighbours need no asking whether they are there. */
interface Grid {
  readonly size: number;
  readonly origin: Vec3;
  /** Cells without the rim. */
  readonly counts: readonly [number, number, number];
  /** 1 where there is metal; x runs fastest. */
  readonly filled: Uint8Array;
  /** Places of the cells of metal. */
  readonly metal: Int32Array;
}

/** Cells along x and in a layer, the rim counted. */
const rowOf = ({ counts }: Pick<Grid, 'counts'>): number => counts[0] + 2;
const layerOf = ({ counts }: Pick<Grid, 'counts'>): number => (counts[0] + 2) * (counts[1] + 2);

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
  const filled = new Uint8Array(layerOf({ counts }) * (counts[2] + 2));
  const grid = { size, origin: min, counts, filled };
  markSurface(grid, mesh);
  fillInside(grid, mesh);
  const metal = new Int32Array(filled.reduce((sum, cell) => sum + cell, 0));
  for (let cell = 0, n = 0; cell < filled.length; cell++) if (filled[cell] === 1) metal[n++] = cell;
  return { ...grid, metal };
}

type EmptyGrid = Omit<Grid, 'metal'>;

const clampIndex = (value: number, count: number): number => {
  const index = Math.floor(value);
  return index < 0 ? 0 : index < count ? index : count - 1;
};

/** Marks the cells that triangles pass, by points on each half a cell apart. */
function markSurface(grid: EmptyGrid, { positions: p, triangles }: Mesh): void {
  const { size, origin, counts, filled } = grid;
  const [row, layer] = [rowOf(grid), layerOf(grid)];
  const [ox, oy, oz] = origin;
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [3 * triangles[t]!, 3 * triangles[t + 1]!, 3 * triangles[t + 2]!];
    const [ax, ay, az] = [p[a]!, p[a + 1]!, p[a + 2]!];
    const [bx, by, bz] = [p[b]! - ax, p[b + 1]! - ay, p[b + 2]! - az];
    const [cx, cy, cz] = [p[c]! - ax, p[c + 1]! - ay, p[c + 2]! - az];
    const longest = Math.max(
      lengthOf(bx, by, bz),
      lengthOf(p[b]! - p[c]!, p[b + 1]! - p[c + 1]!, p[b + 2]! - p[c + 2]!),
      lengthOf(cx, cy, cz),
    );
    const n = Math.max(1, Math.ceil((2 * longest) / size));
    for (let i = 0; i <= n; i++)
      for (let j = 0; j <= n - i; j++) {
        const [u, v] = [i / n, j / n];
        const x = clampIndex((ax + u * bx + v * cx - ox) / size, counts[0]);
        const y = clampIndex((ay + u * by + v * cy - oy) / size, counts[1]);
        const z = clampIndex((az + u * bz + v * cz - oz) / size, counts[2]);
        filled[x + 1 + row * (y + 1) + layer * (z + 1)] = 1;
      }
  }
}

const lengthOf = (x: number, y: number, z: number): number => Math.sqrt(x * x + y * y + z * z);

/** Fills the cells whose middles lie inside, column by column. */
function fillInside(grid: EmptyGrid, mesh: Mesh): void {
  const { size, origin, counts, filled } = grid;
  const [row, layer] = [rowOf(grid), layerOf(grid)];
  const middles = (axis: 0 | 1): Float64Array =>
    Float64Array.from({ length: counts[axis] }, (_, i) => origin[axis] + (i + 0.5) * size);
  const { starts, heights } = passColumns(mesh, middles(0), middles(1));
  for (let column = 0; column < counts[0] * counts[1]; column++) {
    const at = (column % counts[0]) + 1 + row * (Math.floor(column / counts[0]) + 1);
    for (let n = starts[column]!; n + 1 < starts[column + 1]!; n += 2) {
      const from = Math.ceil((heights[n]! - origin[2]) / size - 0.5);
      const to = Math.floor((heights[n + 1]! - origin[2]) / size - 0.5);
      for (let k = Math.max(0, from); k <= Math.min(to, counts[2] - 1); k++) filled[at + layer * (k + 1)] = 1;
    }
  }
}

/** Shortest paths by buckets a fifth of a cell wide: the lengths are whole multiples of 1, √2, √3 cells, near enough. */
function distancesFrom(grid: Grid, point: Vec3): Float64Array {
  const { filled, metal, size } = grid;
  const start = nearestMetal(grid, point);
  if (start < 0) return new Float64Array(0);
  const best = new Float64Array(filled.length).fill(Number.POSITIVE_INFINITY);
  best[start] = 0;
  const { offsets, lengths } = neighboursOf(grid);
  const buckets: number[][] = [[start]];
  for (let b = 0; b < buckets.length; b++) {
    const bucket = buckets[b]!;
    // The bucket grows while it is worked through.
    for (let n = 0; n < bucket.length; n++) {
      const cell = bucket[n]!;
      const here = best[cell]!;
      if (Math.floor(here * 5) < b) continue;
      for (let s = 0; s < offsets.length; s++) {
        const next = cell + offsets[s]!;
        if (filled[next] === 0) continue;
        const far = here + lengths[s]!;
        if (far >= best[next]!) continue;
        best[next] = far;
        const into = Math.floor(far * 5);
        while (buckets.length <= into) buckets.push([]);
        buckets[into]!.push(next);
      }
    }
  }
  return Float64Array.from(metal, (cell) => best[cell]! * size);
}

/** Steps to the 26 cells round one, and their lengths in cells. */
function neighboursOf(grid: Grid): { readonly offsets: Int32Array; readonly lengths: Float64Array } {
  const steps = [-1, 0, 1]
    .flatMap((i) => [-1, 0, 1].flatMap((j) => [-1, 0, 1].map((k) => [i, j, k] as const)))
    .filter(([i, j, k]) => i !== 0 || j !== 0 || k !== 0);
  return {
    offsets: Int32Array.from(steps, ([i, j, k]) => i + rowOf(grid) * j + layerOf(grid) * k),
    lengths: Float64Array.from(steps, ([i, j, k]) => lengthOf(i, j, k)),
  };
}

/** The first of the nearest. */
function nearestMetal(grid: Grid, [px, py, pz]: Vec3): number {
  const { metal, origin, size } = grid;
  const [row, layer] = [rowOf(grid), layerOf(grid)];
  let [best, least] = [-1, Number.POSITIVE_INFINITY];
  for (let n = 0; n < metal.length; n++) {
    const cell = metal[n]!;
    const far = lengthOf(
      origin[0] + ((cell % row) - 0.5) * size - px,
      origin[1] + ((Math.floor(cell / row) % (layer / row)) - 0.5) * size - py,
      origin[2] + (Math.floor(cell / layer) - 0.5) * size - pz,
    );
    if (far < least) {
      best = cell;
      least = far;
    }
  }
  return best;
}
