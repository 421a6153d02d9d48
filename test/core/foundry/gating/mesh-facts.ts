/** Facts of a mesh measured here from its triangles alone, sharing no code with what is tested. */
import type { Mesh, Vec3 } from '../../../../core/solid/types.js';

type Triangle = readonly [Vec3, Vec3, Vec3];

export const trianglesOf = ({ positions, triangles }: Mesh): readonly Triangle[] => {
  const corner = (i: number): Vec3 => {
    const v = 3 * triangles[i]!;
    return [positions[v]!, positions[v + 1]!, positions[v + 2]!];
  };
  return Array.from({ length: triangles.length / 3 }, (_, t) => [
    corner(3 * t),
    corner(3 * t + 1),
    corner(3 * t + 2),
  ]);
};

const minus = (a: Vec3, b: Vec3): Vec3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const cross = (a: Vec3, b: Vec3): Vec3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];

export interface Overhang {
  /** Shallowest downward-facing slope, radians above the horizontal. */
  readonly slope: number;
  readonly area: number;
  readonly at: Vec3;
}

/** The shallowest downward-facing triangle that reaches above `floor`; null if there is none. */
export const shallowestOverhang = (mesh: Mesh, floor: number): Overhang | null => {
  let worst: Overhang | null = null;
  for (const [a, b, c] of trianglesOf(mesh)) {
    if (Math.max(a[2], b[2], c[2]) <= floor) continue;
    const n = cross(minus(b, a), minus(c, a));
    const length = Math.hypot(...n);
    if (n[2] >= 0 || length === 0) continue;
    // A surface whose normal is straight down is level: slope is the normal's angle from the vertical.
    const slope = Math.atan2(Math.hypot(n[0], n[1]), -n[2]);
    if (worst === null || slope < worst.slope) worst = { slope, area: length / 2, at: a };
  }
  return worst;
};

/** Heights at which the upright line through (x, y) passes the surface, downwards, with whether it enters material. */
export const pierce = (mesh: Mesh, x: number, y: number): readonly { z: number; enters: boolean }[] => {
  const hits: { z: number; enters: boolean }[] = [];
  for (const [a, b, c] of trianglesOf(mesh)) {
    const area = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
    if (area === 0) continue;
    const u = ((b[0] - x) * (c[1] - y) - (b[1] - y) * (c[0] - x)) / area;
    const v = ((c[0] - x) * (a[1] - y) - (c[1] - y) * (a[0] - x)) / area;
    const w = 1 - u - v;
    if (u < 0 || v < 0 || w < 0) continue;
    // Coming from above, a surface that faces up is entered.
    hits.push({ z: u * a[2] + v * b[2] + w * c[2], enters: area > 0 });
  }
  return hits.sort((p, q) => q.z - p.z);
};
