import { maths } from '../../maths/maths.js';
import type { Mesh } from '../../solid/types.js';
import type { Camera } from './camera.js';

const cells = 128;
/** Room round the shape for its shadow, share of its size. */
const spread = 0.4;

/** Softly darkens the ground that the shape stands on. */
export interface GroundShadow {
  /** Darkness 0 to 1 of the ground seen at a sample. */
  at(x: number, y: number): number;
}

/**
 * The shadow of an even sky: the shape's lowest surfaces, weighted by how near the ground they are, blurred.
 * Null where the ground is seen edge-on or from below.
 */
export function makeGroundShadow(mesh: Mesh, camera: Camera): GroundShadow | null {
  const { right, up, towards, scale, shift } = camera;
  if (towards[2] < 0.1) return null;
  const p = mesh.positions;
  const min = [Infinity, Infinity, Infinity];
  const max = [-Infinity, -Infinity, -Infinity];
  for (let i = 0; i < p.length; i++) {
    min[i % 3] = Math.min(min[i % 3]!, p[i]!);
    max[i % 3] = Math.max(max[i % 3]!, p[i]!);
  }
  const size = Math.max(max[0]! - min[0]!, max[1]! - min[1]!, 1e-6);
  const pitch = (size * (1 + 2 * spread)) / cells;
  const x0 = (min[0]! + max[0]!) / 2 - (pitch * cells) / 2;
  const y0 = (min[1]! + max[1]!) / 2 - (pitch * cells) / 2;
  const lowest = lowestSurface(mesh, x0, y0, pitch);
  const near = lowest.map((z) => maths.exp(-(z - min[2]!) / (0.06 * size)));
  const wide = lowest.map((z) => maths.exp(-(z - min[2]!) / (0.3 * size)));
  const tight = blur(near, 2);
  const soft = blur(wide, 9);
  const shade = tight.map((t, i) => Math.min(0.6, 0.3 * t + 0.34 * soft[i]!));
  return {
    at(sx, sy) {
      const a = (sx - shift[0]) / scale;
      const b = (shift[1] - sy) / scale;
      const t = (min[2]! - up[2] * b) / towards[2];
      const x = (right[0] * a + up[0] * b + towards[0] * t - x0) / pitch - 0.5;
      const y = (right[1] * a + up[1] * b + towards[1] * t - y0) / pitch - 0.5;
      const i = Math.floor(x);
      const j = Math.floor(y);
      if (i < 0 || j < 0 || i >= cells - 1 || j >= cells - 1) return 0;
      const k = j * cells + i;
      const u = x - i;
      const v = y - j;
      return (
        (shade[k]! * (1 - u) + shade[k + 1]! * u) * (1 - v) +
        (shade[k + cells]! * (1 - u) + shade[k + cells + 1]! * u) * v
      );
    },
  };
}

/** Height of the lowest point over each cell, Infinity over none. */
function lowestSurface(
  { positions: p, triangles: t }: Mesh,
  x0: number,
  y0: number,
  pitch: number,
): Float32Array {
  const lowest = new Float32Array(cells * cells).fill(Number.POSITIVE_INFINITY);
  const mark = (i: number, j: number, z: number): void => {
    const k = j * cells + i;
    if (z < lowest[k]!) lowest[k] = z;
  };
  for (let f = 0; f < t.length; f += 3) {
    const [a, b, c] = [t[f]! * 3, t[f + 1]! * 3, t[f + 2]! * 3] as const;
    const ax = (p[a]! - x0) / pitch - 0.5;
    const ay = (p[a + 1]! - y0) / pitch - 0.5;
    const bx = (p[b]! - x0) / pitch - 0.5;
    const by = (p[b + 1]! - y0) / pitch - 0.5;
    const cx = (p[c]! - x0) / pitch - 0.5;
    const cy = (p[c + 1]! - y0) / pitch - 0.5;
    mark(Math.round(ax), Math.round(ay), p[a + 2]!);
    const area = (bx - ax) * (cy - ay) - (cx - ax) * (by - ay);
    // Faces that look up are never the lowest.
    if (area >= -1e-9) continue;
    for (let j = Math.ceil(Math.min(ay, by, cy)); j <= Math.max(ay, by, cy); j++) {
      for (let i = Math.ceil(Math.min(ax, bx, cx)); i <= Math.max(ax, bx, cx); i++) {
        const u = ((bx - i) * (cy - j) - (cx - i) * (by - j)) / area;
        const v = ((cx - i) * (ay - j) - (ax - i) * (cy - j)) / area;
        const w = 1 - u - v;
        if (u >= 0 && v >= 0 && w >= 0) mark(i, j, u * p[a + 2]! + v * p[b + 2]! + w * p[c + 2]!);
      }
    }
  }
  return lowest;
}

/** Three box blurs, close to a Gaussian. */
function blur(values: Float32Array, radius: number): Float32Array {
  let from = values;
  for (let pass = 0; pass < 3; pass++) {
    for (const [step, line] of [
      [1, cells],
      [cells, 1],
    ] as const) {
      const to = new Float32Array(from.length);
      for (let l = 0; l < cells; l++) {
        let sum = 0;
        for (let i = -radius; i < cells; i++) {
          if (i + radius < cells) sum += from[l * line + (i + radius) * step]!;
          if (i - radius - 1 >= 0) sum -= from[l * line + (i - radius - 1) * step]!;
          if (i >= 0) to[l * line + i * step] = sum / (2 * radius + 1);
        }
      }
      from = to;
    }
  }
  return from;
}
