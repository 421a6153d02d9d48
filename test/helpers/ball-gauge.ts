import { type GearToMeasure, lobeDirections, measureGear, toothDirections } from './gear-gauge.js';
import { areaOf, horizontal, type Loop, nearestApproach, radii, section, type Vec } from './sections.js';
import type { WeldedMesh } from './welded-mesh.js';

/**
 * Lays two balls in tooth spaces of the mesh, as nearly opposite as there are, half way up the (half) face, and
 * measures over them. Only distances to triangles are used, no formula of gears.
 */
export function sizeOverBalls(gear: GearToMeasure, diameter: number): number {
  const { space, seat } = seatsOf(gear, diameter, restBall);
  const opposite = space + (Math.floor(gear.teeth / 2) * 2 * Math.PI) / gear.teeth;
  const [p, q] = [seat(space), seat(opposite)];
  return Math.hypot(p[0] - q[0], p[1] - q[1]) + diameter;
}

/** The same over three balls of a gear of odd tooth number: one flat on two neighbours, the other on the third. */
export function sizeOverThreeBalls(gear: GearToMeasure, diameter: number): number {
  const { space, seat } = seatsOf(gear, diameter, restBall);
  const pitch = (2 * Math.PI) / gear.teeth;
  const [p, q, r] = [seat(space), seat(space + pitch), seat(space + ((gear.teeth + 1) / 2) * pitch)];
  return acrossThree(p, q, r) + diameter;
}

/** The same over two balls in neighbouring spaces. */
export function sizeOverNeighbours(gear: GearToMeasure, diameter: number): number {
  const { space, seat } = seatsOf(gear, diameter, restBall);
  const pitch = (2 * Math.PI) / gear.teeth;
  const [p, q] = [seat(space), seat(space + pitch)];
  return Math.hypot(p[0] - q[0], p[1] - q[1]) + diameter;
}

/**
 * The same over two straight pins in opposite spaces, between flats square to the line of their middles. They lean as
 * they like: each comes to rest where it sinks deepest.
 */
export function sizeOverPins(gear: GearToMeasure, diameter: number): number {
  const { space, seat } = seatsOf(gear, diameter, restPin);
  const opposite = space + (Math.floor(gear.teeth / 2) * 2 * Math.PI) / gear.teeth;
  const [p, q] = [seat(space), seat(opposite)];
  return Math.hypot(p[0] - q[0], p[1] - q[1]) + diameter;
}

/** Two balls in spaces of a ring, as nearly opposite as there are: what lies between them. */
export function sizeBetweenBalls(mesh: WeldedMesh, teeth: number, diameter: number): number {
  const { min, max } = heightsOf(mesh);
  const z = (min + max) / 2;
  const hole = section(mesh, horizontal(z)).reduce((a, b) => (areaOf(b) < areaOf(a) ? b : a));
  const bore: Loop = [...hole].reverse();
  const [tip, root] = [nearestApproach(bore), Math.max(...radii(bore))];
  const seat = (direction: number): Vec => {
    const near = trianglesNear(mesh, radially((tip + root) / 2, direction, z), root - tip + diameter);
    const range = { blocked: root, free: tip - diameter, slack: 0.2 / teeth };
    return restBall(near, diameter, { direction, z }, range);
  };
  const spaces = [...lobeDirections(bore)].sort((a, b) => a - b);
  const space = spaces[1] as number;
  const [p, q] = [seat(space), seat(space + (Math.floor(teeth / 2) * 2 * Math.PI) / teeth)];
  return Math.hypot(p[0] - q[0], p[1] - q[1]) - diameter;
}

/** Distance of the third point from the line through the first two. */
const acrossThree = (p: Vec, q: Vec, r: Vec): number => {
  const [dx, dy] = [q[0] - p[0], q[1] - p[1]];
  return Math.abs(dx * (r[1] - p[1]) - dy * (r[0] - p[0])) / Math.hypot(dx, dy);
};

/** Where a thing pushed along a direction through `near` comes to rest: as far in as it goes when free to move. */
type Seat = (
  near: readonly Triangle[],
  diameter: number,
  place: { readonly direction: number; readonly z: number },
  range: { readonly blocked: number; readonly free: number; readonly slack: number },
) => Vec;

function seatsOf(gear: GearToMeasure, diameter: number, rest: Seat) {
  const { half, tipRadius, rootRadius } = measureGear(gear);
  const z = (half[0] + half[1]) / 2;
  const directions = [...toothDirections(gear, z)].sort((a, b) => a - b);
  const [first, second] = [directions[0] as number, directions[1] as number];
  const seat = (direction: number): Vec => {
    const middle = radially((tipRadius + rootRadius) / 2, direction, z);
    // A pin lies along the whole face.
    const reach = tipRadius - rootRadius + diameter + (rest === restPin ? half[1] - half[0] : 0);
    const near = trianglesNear(gear.mesh, middle, reach);
    const range = { blocked: rootRadius, free: tipRadius + diameter, slack: 0.2 / gear.teeth };
    return rest(near, diameter, { direction, z }, range);
  };
  return { space: (first + second) / 2, seat };
}

const radially = (radius: number, angle: number, z: number): Vec => [
  radius * Math.cos(angle),
  radius * Math.sin(angle),
  z,
];

/** Where a function with one valley is least, within ± `reach` of `middle`, rad, to 0.01 µm at the radius. */
function lowest(of: (angle: number) => number, middle: number, reach: number, radius: number): number {
  let [from, to] = [middle - reach, middle + reach];
  while ((to - from) * radius > 1e-5) {
    const [a, b] = [from + (to - from) / 3, to - (to - from) / 3];
    if (of(a) < of(b)) to = b;
    else from = a;
  }
  return (from + to) / 2;
}

/** Where the touching begins between a blocked and a free radius, either way round. */
function halved(blocked: number, free: number, touches: (radius: number) => boolean): number {
  let [inside, outside] = [blocked, free];
  while (Math.abs(outside - inside) > 1e-6) {
    const middle = (inside + outside) / 2;
    if (touches(middle)) inside = middle;
    else outside = middle;
  }
  return outside;
}

const restBall: Seat = (near, diameter, { direction, z }, { blocked, free, slack }) => {
  const touches = touching(near, diameter / 2);
  const depth = (angle: number): number =>
    halved(blocked, free, (radius) => touches(radially(radius, angle, z)));
  // Deepest is farthest from where it is free.
  const angle = lowest((a) => Math.abs(depth(a) - blocked), direction, slack, Math.max(blocked, free));
  return radially(depth(angle), angle, z);
};

/** Whether a ball about a point touches any of the triangles; those whose own round is out of reach are passed over. */
function touching(near: readonly Triangle[], radius: number): (centre: Vec) => boolean {
  const rounds = Float64Array.from(
    near.flatMap(([a, b, c]) => {
      const middle = [0, 1, 2].map((k) => ((a[k] as number) + (b[k] as number) + (c[k] as number)) / 3);
      const own = Math.max(...[a, b, c].map((p) => Math.hypot(...minus(p, middle as unknown as Vec))));
      return [...middle, own + radius];
    }),
  );
  // The triangle last touched is most likely touched again.
  let last = 0;
  return (centre) => {
    const [x, y, z] = centre;
    if (near.length > 0 && distanceTo(centre, near[last] as Triangle) < radius) return true;
    for (let i = 0; i < near.length; i++) {
      const [dx, dy, dz, reach] = [
        (rounds[4 * i] as number) - x,
        (rounds[4 * i + 1] as number) - y,
        (rounds[4 * i + 2] as number) - z,
        rounds[4 * i + 3] as number,
      ];
      if (dx * dx + dy * dy + dz * dz >= reach * reach) continue;
      if (distanceTo(centre, near[i] as Triangle) < radius) {
        last = i;
        return true;
      }
    }
    return false;
  };
}

/** A long pin about the radius through the middle of the space, which leans as it sinks deepest. */
const restPin: Seat = (near, diameter, { direction, z }, { blocked, free, slack }) => {
  const depth = (angle: number, lean: number): number => {
    // Seen along the pin: it is a circle, and the sides of the triangles are lines.
    const u: Vec = [Math.cos(angle), Math.sin(angle), 0];
    const v: Vec = [-u[1] * Math.cos(lean), u[0] * Math.cos(lean), -Math.sin(lean)];
    const from: Vec = [0, 0, z];
    const sides: number[] = [];
    for (const triangle of near) {
      const seen = triangle.map((p) => [dot(p, u), dot(minus(p, from), v)] as const);
      seen.forEach(([a, b], k) => {
        const [c, d] = seen[(k + 1) % 3] as readonly [number, number];
        const passes = b * d <= 0 || Math.min(Math.abs(b), Math.abs(d)) < diameter / 2;
        if (passes && Math.max(a, c) > 0) sides.push(a, b, c - a, d - b);
      });
    }
    const flat = Float64Array.from(sides);
    return halved(blocked, free, (radius) => {
      for (let i = 0; i < flat.length; i += 4) {
        const [a, b] = [(flat[i] as number) - radius, flat[i + 1] as number];
        const [ex, ey] = [flat[i + 2] as number, flat[i + 3] as number];
        const f = Math.min(1, Math.max(0, -(a * ex + b * ey) / (ex * ex + ey * ey || 1)));
        if ((a + f * ex) ** 2 + (b + f * ey) ** 2 < diameter ** 2 / 4) return true;
      }
      return false;
    });
  };
  const step = Math.PI / 60;
  const leans = Array.from({ length: 31 }, (_, i) => (i - 15) * step);
  const [, rough] = leans
    .map((lean) => [depth(direction, lean), lean] as const)
    .reduce((a, b) => (b[0] < a[0] ? b : a));
  const lean = (angle: number): number => lowest((l) => depth(angle, l), rough, step, 1);
  const first = lean(direction);
  const angle = lowest((a) => depth(a, first), direction, slack, free);
  return radially(depth(angle, lean(angle)), angle, z);
};

type Triangle = readonly [Vec, Vec, Vec];

const heightsOf = ({ points }: WeldedMesh): { min: number; max: number } => {
  let [min, max] = [Infinity, -Infinity];
  for (let i = 2; i < points.length; i += 3) {
    min = Math.min(min, points[i] as number);
    max = Math.max(max, points[i] as number);
  }
  return { min, max };
};

function trianglesNear(mesh: WeldedMesh, centre: Vec, reach: number): readonly Triangle[] {
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
