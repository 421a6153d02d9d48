import { type GearToMeasure, measureGear, toothDirections } from './gear-gauge.js';
import type { Vec } from './sections.js';

/**
 * Lays two balls in tooth spaces of the mesh, as nearly opposite as there are, half way up the (half) face, and
 * measures over them. Only distances to triangles are used, no formula of gears.
 */
export function sizeOverBalls(gear: GearToMeasure, diameter: number): number {
  const { half } = measureGear(gear);
  const z = (half[0] + half[1]) / 2;
  const directions = [...toothDirections(gear, z)].sort((a, b) => a - b);
  const [first, second] = [directions[0] as number, directions[1] as number];
  const space = (first + second) / 2;
  const opposite = space + (Math.floor(gear.teeth / 2) * 2 * Math.PI) / gear.teeth;
  const [p, q] = [space, opposite].map((direction) => seat(gear, diameter, direction, z)) as [Vec, Vec];
  return Math.hypot(p[0] - q[0], p[1] - q[1]) + diameter;
}

/** Where a ball pushed into the space comes to rest: as far in as it goes when free to move sideways. */
function seat(gear: GearToMeasure, diameter: number, direction: number, z: number): Vec {
  const { tipRadius, rootRadius } = measureGear(gear);
  const at = (radius: number, angle: number): Vec => [radius * Math.cos(angle), radius * Math.sin(angle), z];
  const near = trianglesNear(
    gear,
    at((tipRadius + rootRadius) / 2, direction),
    tipRadius - rootRadius + diameter,
  );
  const depth = (angle: number): number => {
    let [inside, free] = [rootRadius, tipRadius + diameter];
    while (free - inside > 1e-6) {
      const middle = (inside + free) / 2;
      const centre = at(middle, angle);
      if (near.some((t) => distanceTo(centre, t) < diameter / 2)) inside = middle;
      else free = middle;
    }
    return free;
  };
  let [from, to] = [direction - 0.2 / gear.teeth, direction + 0.2 / gear.teeth];
  while ((to - from) * tipRadius > 1e-5) {
    const [a, b] = [from + (to - from) / 3, to - (to - from) / 3];
    if (depth(a) < depth(b)) to = b;
    else from = a;
  }
  return at(depth((from + to) / 2), (from + to) / 2);
}

type Triangle = readonly [Vec, Vec, Vec];

function trianglesNear({ mesh }: GearToMeasure, centre: Vec, reach: number): readonly Triangle[] {
  const { points, triangles } = mesh;
  const found: Triangle[] = [];
  const corner = (i: number): Vec => [0, 1, 2].map((k) => points[3 * i + k] as number) as unknown as Vec;
  for (let t = 0; t < triangles.length; t += 3) {
    const triangle = [0, 1, 2].map((k) => corner(triangles[t + k] as number)) as unknown as Triangle;
    const apart = [0, 1, 2].some(
      (k) =>
        Math.min(...triangle.map((v) => v[k] as number)) > (centre[k] as number) + reach ||
        Math.max(...triangle.map((v) => v[k] as number)) < (centre[k] as number) - reach,
    );
    if (!apart) found.push(triangle);
  }
  return found;
}

const minus = (a: Vec, b: Vec): Vec => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const dot = (a: Vec, b: Vec): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const cross = (a: Vec, b: Vec): Vec => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];

/** Distance of a point from a triangle: from its plane where the foot lies inside, else from its nearest side. */
function distanceTo(p: Vec, [a, b, c]: Triangle): number {
  const normal = cross(minus(b, a), minus(c, a));
  const sides = [
    [a, b],
    [b, c],
    [c, a],
  ] as const;
  const inside = sides.every(([s, e]) => dot(cross(minus(e, s), minus(p, s)), normal) >= 0);
  if (inside) return Math.abs(dot(minus(p, a), normal)) / Math.hypot(...normal);
  return Math.min(
    ...sides.map(([s, e]) => {
      const along = minus(e, s);
      const f = Math.min(1, Math.max(0, dot(minus(p, s), along) / dot(along, along)));
      return Math.hypot(...minus(p, [s[0] + f * along[0], s[1] + f * along[1], s[2] + f * along[2]]));
    }),
  );
}
