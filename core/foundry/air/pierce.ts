import { maths } from '../../maths/maths.js';
import type { Mesh, Vec3 } from '../../solid/types.js';
import type { GatingPlan } from '../plans.js';
import { leaningWays } from './leaning.js';

/** Farther than this above or below a foot's level is no surface that it stands on, mm. */
const near = 0.25;

/**
 * A pattern with vertices put into its surface where sprue and vents will stand, so that its air can be searched before
 * they are built: its shape is the same. Vertices from `openFrom` on are open to the air.
 */
export function pierceAtFeet(
  { positions, triangles }: Mesh,
  gating: GatingPlan,
): { readonly mesh: Mesh; readonly openFrom: number } {
  const p = [...positions];
  const t = [...triangles];
  const openFrom = positions.length / 3;
  const feet = [
    ...gating.gates.map(({ at, outerDiameter, seat = 0 }) => ({ at, radius: outerDiameter / 2, seat })),
    ...gating.vents.map(({ path, diameter, seat = 0 }) => ({
      at: path[0] as Vec3,
      radius: diameter / 2,
      seat,
    })),
  ];
  for (const { at, radius, seat } of feet) {
    const under = trianglesAt(p, t, at, radius, seat);
    for (let i = 0; i < leaningWays; i++) {
      const turn = (2 * Math.PI * i) / leaningWays;
      const [x, y] = [at[0] + 0.95 * radius * maths.cos(turn), at[1] + 0.95 * radius * maths.sin(turn)];
      for (const f of under) {
        const [a, b, c] = [3 * t[f]!, 3 * t[f + 1]!, 3 * t[f + 2]!];
        const side = (q: number, r: number): number =>
          (p[q]! - x) * (p[r + 1]! - y) - (p[r]! - x) * (p[q + 1]! - y);
        const [u, v, w] = [side(b, c), side(c, a), side(a, b)];
        if (!(u > 0 && v > 0 && w > 0)) continue;
        const z = (u * p[a + 2]! + v * p[b + 2]! + w * p[c + 2]!) / (u + v + w);
        const added = p.push(x, y, z) / 3 - 1;
        const [i0, i1, i2] = [t[f]!, t[f + 1]!, t[f + 2]!];
        t[f + 2] = added;
        under.push(t.push(i1, i2, added) - 3, t.push(i2, i0, added) - 3);
        break;
      }
    }
  }
  return { mesh: { positions: Float32Array.from(p), triangles: Uint32Array.from(t) }, openFrom };
}

/** Those that look up at a foot's level and may lie under it. */
function trianglesAt(
  p: readonly number[],
  t: readonly number[],
  at: Vec3,
  radius: number,
  seat: number,
): number[] {
  const found: number[] = [];
  const isNear = (i: number): boolean => p[i + 2]! <= at[2] + near && p[i + 2]! >= at[2] - seat - near;
  for (let f = 0; f < t.length; f += 3) {
    const [a, b, c] = [3 * t[f]!, 3 * t[f + 1]!, 3 * t[f + 2]!];
    if (!isNear(a) || !isNear(b) || !isNear(c)) continue;
    if (Math.min(p[a]!, p[b]!, p[c]!) > at[0] + radius || Math.max(p[a]!, p[b]!, p[c]!) < at[0] - radius)
      continue;
    found.push(f);
  }
  return found;
}
