import { Vector3 } from 'three';
import { ConvexHull } from 'three/examples/jsm/math/ConvexHull.js';
import { maths } from '../../maths/maths.js';
import { along, dot, unit } from '../../shape/vector.js';
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

export function convexHull(positions: Float32Array): Hull {
  const points = outermost(positions);
  const hull = new ConvexHull().setFromPoints(points.map((p) => new Vector3(...p)));
  const corners = new Set<Vec3>();
  const facets = hull.faces
    .map(({ normal, area, edge }) => {
      for (let e = edge, i = 0; i < 3; i++, e = e.next) {
        const { x, y, z } = e.head().point;
        corners.add([x, y, z]);
      }
      // The library gives twice the area of a facet or the area, by its version: only shares matter here.
      return { normal: [normal.x, normal.y, normal.z] as Vec3, area };
    })
    .sort((a, b) => b.area - a.area);
  const sides: { first: Vec3; sum: Vec3; area: number }[] = [];
  for (const { normal, area } of facets) {
    const known = sides.find(({ first }) => dot(first, normal) > oneSide);
    if (known) {
      known.sum = along(known.sum, normal, area);
      known.area += area;
    } else if (sides.length < 400) sides.push({ first: normal, sum: along([0, 0, 0], normal, area), area });
  }
  const known = new Map([...corners].map((c) => [c.join(), c]));
  return {
    corners: [...known.values()],
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
