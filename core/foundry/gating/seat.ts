import { passColumns } from '../../solid/columns.js';
import type { Mesh, Vec2 } from '../../solid/types.js';
import { sink } from './sprue.js';

/** What a round foot would stand on, mm. */
export interface Seat {
  /** Height of the highest point within the foot's circle. */
  readonly top: number;
  /** How far the surface falls away below that within the circle. */
  readonly fall: number;
  /** The highest that the part's underside comes within the circle, under the uppermost of it. */
  readonly under: number;
  /** Highest point of the part in the ring of mould about the foot; minus infinity where nothing is there. */
  readonly beside: number;
}

/** Uprights across a foot's radius. */
const across = 8;

/** Metal of the part left under a sunk foot, mm: common practice, no source. */
export const leastUnder = 0.6;

/**
 * The part's uppermost surface under a foot of that radius: null where the circle reaches out over the part's edge.
 * Measured on uprights an eighth of the radius apart, the circle taken that much wider so that nothing is missed.
 * @param mesh closed, or all triangles of one that come within `radius` + `wall` of `at` in plan
 * @param wall width of the ring of mould that is looked at about the foot, mm
 */
export function measureSeat(mesh: Mesh, at: Vec2, radius: number, wall: number): Seat | null {
  const step = radius / across;
  const count = across + 1 + Math.ceil(wall / step);
  const ruler = (middle: number): Float64Array =>
    Float64Array.from({ length: 2 * count + 1 }, (_, i) => middle + (i - count) * step);
  const { starts, heights } = passColumns(mesh, ruler(at[0]), ruler(at[1]));
  let [top, low, under, beside] = [-Infinity, Infinity, -Infinity, -Infinity];
  const [within, ring] = [(radius + step / 2) ** 2, (radius + wall) ** 2];
  for (let j = -count; j <= count; j++)
    for (let i = -count; i <= count; i++) {
      const squared = (i * i + j * j) * step * step;
      if (squared > ring && squared > within) continue;
      const column = i + count + (2 * count + 1) * (j + count);
      const last = starts[column + 1]! - 1;
      const none = last - 1 < starts[column]!;
      if (squared > within) {
        if (!none) beside = Math.max(beside, heights[last]!);
        continue;
      }
      if (none) return null;
      top = Math.max(top, heights[last]!);
      low = Math.min(low, heights[last]!);
      under = Math.max(under, heights[last - 1]!);
    }
  // A point may stand up between the uprights.
  const p = mesh.positions;
  for (const v of new Set(mesh.triangles)) {
    const [dx, dy] = [p[3 * v]! - at[0], p[3 * v + 1]! - at[1]];
    if (dx * dx + dy * dy <= radius * radius) top = Math.max(top, p[3 * v + 2]!);
  }
  return { top, fall: top - low, under, beside };
}

/** Whether a foot sunk under its seat stays within the part. */
export const holdsFoot = ({ top, fall, under }: Seat): boolean => top - fall - sink - leastUnder >= under;

/** The mesh's triangles that come within a square about a point in plan. */
export function cropAbout({ positions: p, triangles: t }: Mesh, [x, y]: Vec2, far: number): Mesh {
  const kept: number[] = [];
  for (let f = 0; f < t.length; f += 3) {
    const [a, b, c] = [3 * t[f]!, 3 * t[f + 1]!, 3 * t[f + 2]!];
    if (Math.min(p[a]!, p[b]!, p[c]!) > x + far || Math.max(p[a]!, p[b]!, p[c]!) < x - far) continue;
    if (Math.min(p[a + 1]!, p[b + 1]!, p[c + 1]!) > y + far) continue;
    if (Math.max(p[a + 1]!, p[b + 1]!, p[c + 1]!) < y - far) continue;
    kept.push(t[f]!, t[f + 1]!, t[f + 2]!);
  }
  return { positions: p, triangles: Uint32Array.from(kept) };
}
