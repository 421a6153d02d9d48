import { maths } from '../../maths/maths.js';
import { convexHull as hullOf } from '../../shape/convex-hull.js';
import { along, cross, dot, lengthOf, minus, unit } from '../../shape/vector.js';
import type { Vec3 } from '../../solid/types.js';
import { evenSphere } from './even-sphere.js';

/** The convex hull of a part. */
export interface Hull {
  readonly corners: readonly Vec3[];
  /** Flat sides, largest first: outward normals, mm². */
  readonly sides: readonly { readonly normal: Vec3; readonly area: number }[];
}

/** More vertices than this are thinned out first, to those that are outermost in one of many directions. */
const mostPoints = 6000;

/** Directions for that: some 2.9° apart, so what is left out stands out less than 0.04 % of the part's size. */
const directions = 2000;

/** Facets that differ by less are one side. */
const oneSide = maths.cos((0.4 * Math.PI) / 180);

const known = new WeakMap<Float32Array, Hull>();

/** The hull of vertices that are not written to, remembered for as long as they live: every turn of a part asks for it. */
export function convexHull(positions: Float32Array): Hull {
  const hull = known.get(positions) ?? makeHull(positions);
  known.set(positions, hull);
  return hull;
}

function makeHull(positions: Float32Array): Hull {
  const points = outermost(positions);
  const corners = new Set<Vec3>();
  const { triangles: t = new Uint32Array() } = hullOf(points) ?? {};
  const facets = Array.from({ length: t.length / 3 }, (_, f) => [t[3 * f], t[3 * f + 1], t[3 * f + 2]])
    .map(([i, j, k]) => {
      const [a, b, c] = [points[i!]!, points[j!]!, points[k!]!];
      for (const corner of [a, b, c]) corners.add(corner);
      const across = cross(minus(b, a), minus(c, a));
      const area = lengthOf(across) / 2;
      return { normal: area === 0 ? ([0, 0, 0] as const) : unit(across), area };
    })
    .filter(({ area }) => area > 0)
    .sort((a, b) => b.area - a.area);
  const sides: { first: Vec3; sum: Vec3; area: number }[] = [];
  for (const { normal, area } of facets) {
    const known = sides.find(({ first }) => dot(first, normal) > oneSide);
    if (known) {
      known.sum = along(known.sum, normal, area);
      known.area += area;
    } else if (sides.length < 400) sides.push({ first: normal, sum: along([0, 0, 0], normal, area), area });
  }
  return {
    corners: [...corners],
    sides: sides.map(({ sum, area }) => ({ normal: unit(sum), area })).sort((a, b) => b.area - a.area),
  };
}

/** The points a hull is made of; few vertices all of them. */
function outermost(p: Float32Array): readonly Vec3[] {
  const point = (v: number): Vec3 => [p[3 * v]!, p[3 * v + 1]!, p[3 * v + 2]!];
  const count = p.length / 3;
  if (count <= mostPoints) return Array.from({ length: count }, (_, v) => point(v));
  const axes: Vec3[] = [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ];
  const kept = new Set<number>();
  for (const [x, y, z] of [...axes, ...evenSphere(directions / 2)]) {
    let [low, high] = [0, 0];
    let [least, most] = [Infinity, -Infinity];
    for (let v = 0, i = 0; v < count; v++, i += 3) {
      const h = x * p[i]! + y * p[i + 1]! + z * p[i + 2]!;
      if (h < least) [least, low] = [h, v];
      if (h > most) [most, high] = [h, v];
    }
    kept.add(low).add(high);
  }
  return [...kept].map(point);
}
