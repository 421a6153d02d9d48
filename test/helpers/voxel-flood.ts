import type { Mesh, Vec3 } from '../../core/solid/types.js';

/**
 * Trapped air by brute force, for any closed mesh: cells of a grid are in or out by the parity of crossings along
 * vertical lines; metal rises layer by layer, and at each layer the air above is flooded anew from the open tops. Air
 * that is not come to is trapped and stays; at the end, what metal cannot come to from the gate through untrapped cells
 * is shut in too. Shares nothing with the code it checks: no join tree, no surface, no sorting of vertices.
 */
export interface VoxelFlood {
  /** Largest first. */
  readonly pockets: readonly VoxelPocket[];
  /** Of all cells within, mm³. */
  readonly volume: number;
  readonly total: number;
}

export interface VoxelPocket {
  /** mm³ */
  readonly volume: number;
  /** Of the faces between the pocket's cells and others, mm². */
  readonly faces: number;
  /** As seen from above, mm². */
  readonly footprint: number;
  /** Middle of its highest layer, in the mesh's coordinates. */
  readonly at: Vec3;
  /** Along the pour direction, mm: the lowest layer shut by rising metal, its underside. */
  readonly level: number;
}

export interface VoxelOptions {
  readonly openHeight: number;
  /** mm */
  readonly cell: number;
  readonly up?: Vec3;
}

const [outside, air, metal, trapped] = [0, 1, 2, 3];

export function voxelFlood(mesh: Mesh, { openHeight, cell, up = [0, 0, 1] }: VoxelOptions): VoxelFlood {
  const axes = axesAlong(up);
  const count = mesh.positions.length / 3;
  const turned = new Float64Array(mesh.positions.length);
  for (let i = 0; i < count; i++)
    for (let k = 0; k < 3; k++)
      turned[3 * i + k] = [0, 1, 2].reduce((s, c) => s + axes[k]![c]! * mesh.positions[3 * i + c]!, 0);
  const low = [0, 1, 2].map((k) => extreme(turned, k, Math.min) - cell * (1 + 0.37 / (k + 2)));
  const size = [0, 1, 2].map((k) => Math.ceil((extreme(turned, k, Math.max) - low[k]!) / cell) + 2);
  const [nx, ny, nz] = size as [number, number, number];
  const state = fill(turned, mesh.triangles, low, cell, [nx, ny, nz]);
  const layer = nx * ny;
  const steps = [1, -1, nx, -nx, layer, -layer];
  const pointOf = (c: number): Vec3 => {
    const p = [c % nx, Math.floor(c / nx) % ny, Math.floor(c / layer)].map(
      (n, k) => low[k]! + (n + 0.5) * cell,
    );
    return [0, 1, 2].map((c2) => p.reduce((s, q, k) => s + q * axes[k]![c2]!, 0)) as unknown as Vec3;
  };
  const tops: number[] = [];
  for (let c = 0; c < state.length; c++)
    if (state[c] !== outside && pointOf(c)[2]! >= openHeight - cell) tops.push(c);

  const queue = new Int32Array(state.length);
  const seen = new Int32Array(state.length).fill(-1);
  /** Marks with `stamp` what can be come to from `from` through cells of that state, from cell `floor` up. */
  const flood = (from: readonly number[], stamp: number, floor: number, through: (s: number) => boolean) => {
    let [head, tail] = [0, 0];
    const push = (c: number): void => {
      if (c < floor || seen[c] === stamp || !through(state[c]!)) return;
      seen[c] = stamp;
      queue[tail++] = c;
    };
    from.forEach(push);
    while (head < tail) {
      const c = queue[head++]!;
      for (const s of steps) push(c + s);
    }
  };
  const levels = new Map<number, number>();
  for (let k = 0; k < nz; k++) {
    flood(tops, k, k * layer, (s) => s === air);
    for (let c = k * layer; c < state.length; c++)
      if (state[c] === air && seen[c] !== k) {
        state[c] = trapped;
        levels.set(c, low[2]! + k * cell);
      }
    for (let c = k * layer; c < (k + 1) * layer; c++) if (state[c] === air) state[c] = metal;
  }
  flood(tops, nz, 0, (s) => s === metal);
  let inside = 0;
  for (let c = 0; c < state.length; c++) {
    if (state[c] !== outside) inside++;
    if (state[c] === metal && seen[c] !== nz) state[c] = trapped;
  }
  const pockets: VoxelPocket[] = [];
  for (let c = 0, stamp = nz + 1; c < state.length; c++) {
    if (state[c] !== trapped || seen[c]! > nz) continue;
    flood([c], stamp, 0, (s) => s === trapped);
    pockets.push(pocketOf(++stamp - 1));
  }
  function pocketOf(stamp: number): VoxelPocket {
    const cells: number[] = [];
    for (let c = 0; c < state.length; c++) if (seen[c] === stamp) cells.push(c);
    const highest = Math.floor(cells.at(-1)! / layer);
    const top = cells.filter((c) => Math.floor(c / layer) === highest).map(pointOf);
    return {
      volume: cells.length * cell ** 3,
      faces: cells.reduce((n, c) => n + steps.filter((s) => seen[c + s] !== stamp).length, 0) * cell ** 2,
      footprint: new Set(cells.map((c) => c % layer)).size * cell ** 2,
      at: [0, 1, 2].map((k) => top.reduce((s, p) => s + p[k]!, 0) / top.length) as unknown as Vec3,
      level: cells.reduce((low, c) => Math.min(low, levels.get(c) ?? low), Number.POSITIVE_INFINITY),
    };
  }
  pockets.sort((a, b) => b.volume - a.volume);
  return {
    pockets,
    volume: inside * cell ** 3,
    total: pockets.reduce((s, p) => s + p.volume, 0),
  };
}

/** Cells in or out by the crossings of the surface with the vertical line through their middles. */
function fill(
  p: Float64Array,
  t: Uint32Array,
  low: readonly number[],
  cell: number,
  [nx, ny, nz]: readonly [number, number, number],
): Uint8Array {
  const crossings: number[][] = Array.from({ length: nx * ny }, () => []);
  const column = (value: number, k: number): number => (value - low[k]!) / cell - 0.5;
  for (let f = 0; f < t.length; f += 3) {
    const [a, b, c] = [3 * t[f]!, 3 * t[f + 1]!, 3 * t[f + 2]!];
    const xs = [p[a]!, p[b]!, p[c]!];
    const ys = [p[a + 1]!, p[b + 1]!, p[c + 1]!];
    const area = (xs[1]! - xs[0]!) * (ys[2]! - ys[0]!) - (xs[2]! - xs[0]!) * (ys[1]! - ys[0]!);
    if (area === 0) continue;
    for (let i = Math.ceil(column(Math.min(...xs), 0)); i <= column(Math.max(...xs), 0); i++)
      for (let j = Math.ceil(column(Math.min(...ys), 1)); j <= column(Math.max(...ys), 1); j++) {
        const [x, y] = [low[0]! + (i + 0.5) * cell, low[1]! + (j + 0.5) * cell];
        const share = [0, 1, 2].map((k) => {
          const [q, r] = [(k + 1) % 3, (k + 2) % 3];
          return ((xs[q]! - x) * (ys[r]! - y) - (xs[r]! - x) * (ys[q]! - y)) / area;
        });
        if (share.every((s) => s >= 0))
          crossings[j * nx + i]!.push(p[a + 2]! * share[0]! + p[b + 2]! * share[1]! + p[c + 2]! * share[2]!);
      }
  }
  const state = new Uint8Array(nx * ny * nz);
  crossings.forEach((zs, at) => {
    zs.sort((a, b) => a - b);
    for (let n = 0; n + 1 < zs.length; n += 2)
      for (let k = Math.ceil(column(zs[n]!, 2)); k <= column(zs[n + 1]!, 2); k++)
        state[k * nx * ny + at] = air!;
  });
  return state;
}

/** Three unit vectors square to each other, the last along `up`. */
function axesAlong(up: Vec3): readonly Vec3[] {
  const length = Math.hypot(...up);
  const w = up.map((c) => c / length) as unknown as Vec3;
  const side: Vec3 = Math.abs(w[1]) < 0.8 ? [0, 1, 0] : [1, 0, 0];
  const times = (a: Vec3, b: Vec3): Vec3 => [
    a[1] * b[2] - a[2] * b[1],
    a[2] * b[0] - a[0] * b[2],
    a[0] * b[1] - a[1] * b[0],
  ];
  const u = times(side, w);
  const n = Math.hypot(...u);
  const v = u.map((c) => c / n) as unknown as Vec3;
  return [v, times(w, v), w];
}

const extreme = (p: Float64Array, k: number, pick: (a: number, b: number) => number): number => {
  let found = p[k]!;
  for (let i = k; i < p.length; i += 3) found = pick(found, p[i]!);
  return found;
};
