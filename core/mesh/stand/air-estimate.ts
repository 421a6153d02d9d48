import { leastPocket } from '../../foundry/air/index.js';
import { DisjointSets } from '../../solid/disjoint-sets.js';
import { measureBounds } from '../../solid/mesh-bounds.js';
import type { Box, Mesh, Vec3 } from '../../solid/types.js';

/** A part's surface in lumps, for a quick look at what air it traps. */
export interface AirLumps {
  /** Three numbers a lump: middle of its vertices, mm. */
  readonly at: Float64Array;
  /** Three numbers a lump: its surface, outward, mm². */
  readonly surface: Float64Array;
  /** Lumps that touch, each pair once, two numbers a pair. */
  readonly pairs: Uint32Array;
}

/** Lumps along the longest side. */
const across = 40;

export function lumpSurface({ positions: p, triangles: t }: Mesh): AirLumps {
  const { min, max } = measureBounds({ positions: p }) as Box;
  const size = Math.max(max[0] - min[0], max[1] - min[1], max[2] - min[2], 1e-9) / across;
  const wide = across + 2;
  const numbers = new Map<number, number>();
  const of = new Uint32Array(p.length / 3);
  const at: number[] = [];
  const counts: number[] = [];
  for (let v = 0; v < of.length; v++) {
    const [i, j, k] = [0, 1, 2].map((a) => Math.floor((p[3 * v + a]! - min[a]!) / size)) as [
      number,
      number,
      number,
    ];
    const key = i + wide * (j + wide * k);
    let lump = numbers.get(key);
    if (lump === undefined) {
      lump = counts.length;
      numbers.set(key, lump);
      counts.push(0);
      at.push(0, 0, 0);
    }
    of[v] = lump;
    counts[lump]!++;
    for (let a = 0; a < 3; a++) at[3 * lump + a]! += p[3 * v + a]!;
  }
  const count = counts.length;
  const surface = new Float64Array(3 * count);
  const pairs = new Set<number>();
  for (let f = 0; f < t.length; f += 3) {
    const corners = [t[f]!, t[f + 1]!, t[f + 2]!] as const;
    const [a, b, c] = corners.map((v) => 3 * v) as [number, number, number];
    const [ux, uy, uz] = [p[b]! - p[a]!, p[b + 1]! - p[a + 1]!, p[b + 2]! - p[a + 2]!];
    const [vx, vy, vz] = [p[c]! - p[a]!, p[c + 1]! - p[a + 1]!, p[c + 2]! - p[a + 2]!];
    const [nx, ny, nz] = [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx];
    for (let k = 0; k < 3; k++) {
      const lump = of[corners[k]!]!;
      surface[3 * lump]! += nx / 6;
      surface[3 * lump + 1]! += ny / 6;
      surface[3 * lump + 2]! += nz / 6;
      const next = of[corners[(k + 1) % 3]!]!;
      if (lump < next) pairs.add(lump * count + next);
    }
  }
  return {
    at: Float64Array.from(at, (sum, i) => sum / counts[Math.floor(i / 3)]!),
    surface,
    pairs: Uint32Array.from([...pairs].flatMap((key) => [Math.floor(key / count), key % count])),
  };
}

/** What air would be shut in with the highest place alone open: places from the threshold on, mm³. */
export interface AirEstimate {
  readonly places: number;
  readonly volume: number;
}

/**
 * The join tree of height over lumps instead of vertices: as `findPockets` does it, but for roofs of holes, which it
 * only leaves out where they would count for less than nothing.
 */
export function estimateAir({ at, surface, pairs }: AirLumps, up: Vec3): AirEstimate {
  const count = at.length / 3;
  const heights = new Float64Array(count);
  const through = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    heights[i] = up[0] * at[3 * i]! + up[1] * at[3 * i + 1]! + up[2] * at[3 * i + 2]!;
    through[i] = up[0] * surface[3 * i]! + up[1] * surface[3 * i + 1]! + up[2] * surface[3 * i + 2]!;
  }
  const order = Uint32Array.from({ length: count }, (_, i) => i).sort(
    (a, b) => heights[b]! - heights[a]! || a - b,
  );
  const rank = new Uint32Array(count);
  order.forEach((lump, i) => {
    rank[lump] = i;
  });
  // Each pair belongs to its lower lump: what it meets when its height is reached.
  const starts = new Uint32Array(count + 1);
  for (let k = 0; k < pairs.length; k += 2) starts[Math.max(rank[pairs[k]!]!, rank[pairs[k + 1]!]!) + 1]!++;
  for (let i = 0; i < count; i++) starts[i + 1]! += starts[i]!;
  const next = starts.slice(0, count);
  const above = new Uint32Array(pairs.length / 2);
  for (let k = 0; k < pairs.length; k += 2) {
    const [a, b] = [rank[pairs[k]!]!, rank[pairs[k + 1]!]!];
    above[next[Math.max(a, b)]!++] = Math.min(a, b);
  }
  // From here on lumps go by rank, highest first.
  const sets = new DisjointSets(count);
  const flux = new Float64Array(count);
  const moment = new Float64Array(count);
  let places = 0;
  let volume = 0;
  for (let i = 0; i < count; i++) {
    const lump = order[i]!;
    const height = heights[lump]!;
    flux[i] = through[lump]!;
    moment[i] = through[lump]! * height;
    const shut: number[] = [];
    let meetsOpen = i === 0;
    for (let k = starts[i]!; k < starts[i + 1]!; k++) {
      const root = sets.find(above[k]!);
      if (root === 0) meetsOpen = true;
      else if (root !== i && !shut.includes(root)) shut.push(root);
    }
    if (meetsOpen)
      for (const root of shut) {
        const held = moment[root]! - height * flux[root]!;
        if (held < leastPocket) continue;
        places++;
        volume += held;
      }
    const into = meetsOpen ? 0 : i;
    for (const root of meetsOpen ? [...shut, i] : shut) {
      if (root === into) continue;
      sets.join(into, root);
      flux[into]! += flux[root]!;
      moment[into]! += moment[root]!;
    }
  }
  return { places, volume };
}
