import { maths } from '../../maths/maths.js';
import type { Mesh, Vec2 } from '../../solid/types.js';
import type { MeshEdges } from './mesh-edges.js';
import { nearness, onView, type ViewFrame } from './view-frame.js';

/** Cells of the depth picture along the longer side of the view. */
const resolution = 500;
/** Shorter than this many cells a gap or a visible bit is an accident of the picture. */
const leastRun = 3;

/**
 * What is seen of a mesh's edges and outline, as lines in the view. Hidden lines are found by a depth picture of
 * the view: ends of a partly hidden line are true to about 1/500 of the view.
 */
export function visibleLines(mesh: Mesh, edges: MeshEdges, frame: ViewFrame): readonly (readonly Vec2[])[] {
  const view = projectMesh(mesh, frame);
  const depth = depthPicture(mesh, view);
  const segments: [Vec2, Vec2][] = [];
  const show = (a: number, b: number): void => {
    segments.push(...seenParts(view, depth, a, b));
  };
  const { toward } = frame;
  const faces = (face: number): number =>
    edges.normals[3 * face]! * toward[0] +
    edges.normals[3 * face + 1]! * toward[1] +
    edges.normals[3 * face + 2]! * toward[2];
  for (const [a, b] of edges.creases) show(a, b);
  for (const [a, b, f, g] of edges.smooth) {
    if (faces(f) > 1e-4 !== faces(g) > 1e-4) show(a, b);
  }
  return chain(segments);
}

interface Projected {
  /** u, v, depth a vertex; larger is nearer. */
  readonly points: Float64Array;
  readonly min: Vec2;
  readonly cell: number;
  readonly columns: number;
  readonly rows: number;
}

function projectMesh({ positions: p }: Mesh, frame: ViewFrame): Projected {
  const points = new Float64Array(p.length);
  const [min, max] = [
    [Infinity, Infinity],
    [-Infinity, -Infinity],
  ] as [[number, number], [number, number]];
  for (let i = 0; i < p.length; i += 3) {
    const at = [p[i]!, p[i + 1]!, p[i + 2]!] as const;
    const uv = onView(frame, at);
    for (const k of [0, 1] as const) {
      points[i + k] = uv[k];
      min[k] = Math.min(min[k], uv[k]);
      max[k] = Math.max(max[k], uv[k]);
    }
    points[i + 2] = nearness(frame, at);
  }
  const cell = Math.max(max[0] - min[0], max[1] - min[1], 1e-6) / resolution;
  return {
    points,
    cell,
    // One empty cell all round.
    min: [min[0] - cell, min[1] - cell],
    columns: Math.ceil((max[0] - min[0]) / cell) + 3,
    rows: Math.ceil((max[1] - min[1]) / cell) + 3,
  };
}

/** The nearest depth in each cell's middle. */
function depthPicture({ triangles: t }: Mesh, view: Projected): Float32Array {
  const { points: p, min, cell, columns, rows } = view;
  const depth = new Float32Array(columns * rows).fill(-Infinity);
  // Corners in cells, the middle of cell 0 at 0.
  const x = new Float64Array(3);
  const y = new Float64Array(3);
  const z = new Float64Array(3);
  for (let i = 0; i < t.length; i += 3) {
    for (let k = 0; k < 3; k++) {
      const at = t[i + k]! * 3;
      x[k] = (p[at]! - min[0]) / cell - 0.5;
      y[k] = (p[at + 1]! - min[1]) / cell - 0.5;
      z[k] = p[at + 2]!;
    }
    const area = (x[1]! - x[0]!) * (y[2]! - y[0]!) - (x[2]! - x[0]!) * (y[1]! - y[0]!);
    // Faces that look away are behind others, edge-on ones cover nothing.
    if (area <= 1e-9) continue;
    const zx = ((z[1]! - z[0]!) * (y[2]! - y[0]!) - (z[2]! - z[0]!) * (y[1]! - y[0]!)) / area;
    const zy = ((z[2]! - z[0]!) * (x[1]! - x[0]!) - (z[1]! - z[0]!) * (x[2]! - x[0]!)) / area;
    const first = Math.ceil(Math.min(y[0]!, y[1]!, y[2]!));
    const last = Math.floor(Math.max(y[0]!, y[1]!, y[2]!));
    for (let row = first; row <= last; row++) {
      let low = Infinity;
      let high = -Infinity;
      for (let k = 0; k < 3; k++) {
        const n = k === 2 ? 0 : k + 1;
        const [ya, yb] = [y[k]!, y[n]!];
        if (ya > row === yb > row && ya !== row) continue;
        const cut = ya === yb ? x[k]! : x[k]! + ((row - ya) / (yb - ya)) * (x[n]! - x[k]!);
        if (cut < low) low = cut;
        if (cut > high) high = cut;
      }
      const end = Math.floor(high);
      for (let column = Math.ceil(low); column <= end; column++) {
        const near = z[0]! + zx * (column - x[0]!) + zy * (row - y[0]!);
        const at = row * columns + column;
        if (near > depth[at]!) depth[at] = near;
      }
    }
  }
  return depth;
}

/** The visible parts of one edge. A point is hidden where everything round it is nearer. */
function seenParts(view: Projected, depth: Float32Array, a: number, b: number): [Vec2, Vec2][] {
  const { points: p, min, cell, columns } = view;
  const from: Vec2 = [p[3 * a]!, p[3 * a + 1]!];
  const to: Vec2 = [p[3 * b]!, p[3 * b + 1]!];
  const [z0, z1] = [p[3 * a + 2]!, p[3 * b + 2]!];
  const length = maths.hypot(to[0] - from[0], to[1] - from[1]);
  if (length < cell * 0.05) return [];
  const steps = Math.max(2, Math.ceil(length / cell));
  const at = (s: number): Vec2 => [from[0] + (to[0] - from[0]) * s, from[1] + (to[1] - from[1]) * s];
  const slack = 1.5 * cell;
  const isSeen = (s: number): boolean => {
    const [u, v] = at(s);
    const z = z0 + (z1 - z0) * s + slack;
    const x = Math.floor((u - min[0]) / cell);
    const y = Math.floor((v - min[1]) / cell);
    for (let dy = -1; dy <= 1; dy++)
      for (let dx = -1; dx <= 1; dx++) if (depth[(y + dy) * columns + x + dx]! <= z) return true;
    return false;
  };
  const seen = Array.from({ length: steps }, (_, i) => isSeen((i + 0.5) / steps));
  const runs: [number, number][] = [];
  for (let i = 0; i < steps; i++) {
    if (!seen[i]) continue;
    const last = runs.at(-1);
    if (last && i - last[1] < leastRun) last[1] = i + 1;
    else runs.push([i, i + 1]);
  }
  return runs
    .filter(([i, j]) => j - i >= leastRun || j - i === steps)
    .map(([i, j]) => [at(i < leastRun ? 0 : i / steps), at(steps - j < leastRun ? 1 : j / steps)]);
}

/** Joins segments that share an end into polylines. */
function chain(segments: readonly (readonly [Vec2, Vec2])[]): readonly (readonly Vec2[])[] {
  const key = ([u, v]: Vec2): string => `${Math.round(u * 1e4)} ${Math.round(v * 1e4)}`;
  const ends = new Map<string, number[]>();
  const seen = new Set<string>();
  const own = segments.filter(([a, b]) => {
    const [ka, kb] = [key(a), key(b)];
    const both = ka < kb ? `${ka} ${kb}` : `${kb} ${ka}`;
    return ka !== kb && !seen.has(both) && seen.add(both);
  });
  own.forEach((s, i) => {
    for (const p of s) {
      const list = ends.get(key(p));
      if (list) list.push(i);
      else ends.set(key(p), [i]);
    }
  });
  const used = new Uint8Array(own.length);
  const extend = (line: Vec2[]): void => {
    for (;;) {
      const tip = key(line.at(-1)!);
      const next = ends.get(tip)?.find((i) => used[i] === 0);
      if (next === undefined) return;
      used[next] = 1;
      const [a, b] = own[next]!;
      line.push(key(a) === tip ? b : a);
    }
  };
  const lines: Vec2[][] = [];
  own.forEach(([a, b], i) => {
    if (used[i] === 1) return;
    used[i] = 1;
    const line: Vec2[] = [a, b];
    extend(line);
    line.reverse();
    extend(line);
    lines.push(line);
  });
  return lines;
}
