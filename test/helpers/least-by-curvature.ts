import type { Mesh } from '../../core/solid/types.js';

/**
 * About the least number of triangles, corners on the surface, that stay within a tolerance of a smooth body, by its
 * curvature alone: flat and singly curved parts, edges and holes are counted as nothing.
 *
 * A triangle errs by half the surface's second fundamental form over it. Where that is definite, the largest triangle
 * within ε is equilateral in its measure, of circumradius √(2ε): area (3√3/2) ε/√K. Where it is indefinite, the form over
 * each side e must satisfy |e·II·e| ≤ 8ε, which the area 2√5 ε/√|K| uses up (the determinant of the form over two sides,
 * (e₁·II·e₂)² − (e₁·II·e₁)(e₂·II·e₂), is at most 80 ε² then). So many areas go into the surface.
 *
 * @param fine the body much finer than the tolerance; K is the angle that corners lack (Gauss and Bonnet), summed over
 * patches about `patch` mm wide, since corner by corner it says little
 */
export function leastByCurvature(fine: Mesh, tolerance: number, patch: number): number {
  const { positions: p, triangles: t } = fine;
  const corners = p.length / 3;
  const lack = new Float64Array(corners).fill(2 * Math.PI);
  const area = new Float64Array(corners);
  const normal = new Float64Array(3 * corners);
  const sharp = new Uint8Array(corners);
  for (let f = 0; f < t.length; f += 3) {
    const at = [0, 1, 2].map((k) => point(p, t[f + k] as number));
    const n = cross(minus(at[1]!, at[0]!), minus(at[2]!, at[0]!));
    const whole = Math.hypot(...n) / 2;
    for (let k = 0; k < 3; k++) {
      const v = t[f + k] as number;
      const [a, b] = [minus(at[(k + 1) % 3]!, at[k]!), minus(at[(k + 2) % 3]!, at[k]!)];
      lack[v]! -= Math.atan2(2 * whole, dot(a, b));
      area[v]! += whole / 3;
      for (let c = 0; c < 3; c++) normal[3 * v + c]! += n[c]!;
    }
  }
  // A corner on an edge of the body: one of its triangles leans far from the rest.
  for (let f = 0; f < t.length; f += 3) {
    const at = [0, 1, 2].map((k) => point(p, t[f + k] as number));
    const n = cross(minus(at[1]!, at[0]!), minus(at[2]!, at[0]!));
    for (let k = 0; k < 3; k++) {
      const v = t[f + k] as number;
      const m = point(normal, v);
      if (dot(n, m) < Math.cos(Math.PI / 12) * Math.hypot(...n) * Math.hypot(...m)) sharp[v] = 1;
    }
  }
  const patches = new Map<string, { lack: number; area: number }>();
  for (let v = 0; v < corners; v++) {
    if (sharp[v] === 1) continue;
    const n = point(normal, v);
    const key = [...point(p, v), ...n.map((c) => ((2 * c) / Math.hypot(...n)) * patch)]
      .map((c) => Math.floor(c / patch))
      .join();
    const found = patches.get(key) ?? { lack: 0, area: 0 };
    patches.set(key, { lack: found.lack + lack[v]!, area: found.area + area[v]! });
  }
  let least = 0;
  for (const { lack, area } of patches.values())
    least +=
      Math.sqrt(Math.abs(lack) * area) / ((lack > 0 ? (3 * Math.sqrt(3)) / 2 : 2 * Math.sqrt(5)) * tolerance);
  return least;
}

type Triple = readonly [number, number, number];
const point = (p: ArrayLike<number>, v: number): Triple => [p[3 * v]!, p[3 * v + 1]!, p[3 * v + 2]!];
const minus = (a: Triple, b: Triple): Triple => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const dot = (a: Triple, b: Triple): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const cross = (a: Triple, b: Triple): Triple => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
