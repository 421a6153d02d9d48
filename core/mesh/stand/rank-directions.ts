import { findPockets } from '../../foundry/air/index.js';
import { maths } from '../../maths/maths.js';
import { along, dot, times, unit } from '../../shape/vector.js';
import type { Mesh, Vec3 } from '../../solid/types.js';
import { evenSphere } from './even-sphere.js';
import { readFacts, type StandFacts } from './facts.js';
import { inertiaAxes } from './inertia-axes.js';
import { type Bed, measureStand, planAxes, type StandMeasures } from './measure.js';
import { axes, nameDirection, sayReasons } from './reasons.js';
import { scoreStand } from './score.js';

export interface StandOptions {
  /** Where it is printed; any size fits where left out. */
  readonly bed?: Bed;
  /** 1 for each triangle that no gate may touch: it does not count as a place for one. */
  readonly avoid?: Uint8Array;
  /** How many to give; 3 where left out. */
  readonly count?: number;
}

/** A way for a part to stand: printed and poured with that direction of the mesh up. */
export interface StandingDirection {
  readonly direction: Vec3;
  readonly name: string;
  /** 0 to 1 by `standWeights`. */
  readonly score: number;
  readonly measures: StandMeasures;
  /** Plain sentences with numbers. */
  readonly reasons: readonly string[];
}

/** Flat sides of the hull that are tried to stand on; directions of an even sphere. */
const mostSides = 30;
const sphere = 100;

/** Directions given differ by this at least, radians. */
const leastApart = (20 * Math.PI) / 180;

/** The best are looked round at these angles in turn, radians, six ways. */
const refined = 4;
const turns = [6, 3, 1.5].map((d) => (d * Math.PI) / 180);

/** Up to this many triangles the air of what is given is searched exactly. */
const mostExact = 250_000;

interface Tried {
  readonly up: Vec3;
  readonly measures: StandMeasures;
}

/**
 * Ways for a closed, sound mesh to stand, best first, 20° apart at least. Those that do not fit the bed come last:
 * where others fit only the best of them, and only if it would be the best of all. Tried are the six axes, the flat sides of its hull, its axes of inertia and 100 even
 * directions, the best refined to about 1°. All triangles count, so that every number but the air and, over 6,000
 * vertices, the room on the bed (0.04 % at most) is that of the mesh; the air of those given is exact up to 250,000
 * triangles.
 */
export function rankDirections(mesh: Mesh, options: StandOptions = {}): readonly StandingDirection[] {
  const { bed, count = 3 } = options;
  const facts = readFacts(mesh);
  const measured = (ups: readonly Vec3[]): readonly Tried[] =>
    ups.map((up) => ({ up, measures: measureStand(facts, up, options) }));
  const first = measured(candidates(facts));
  const tallest = Math.max(...first.map((t) => t.measures.height));
  const better = byScore(facts, tallest);
  const scoreOf = (t: Tried): number => scoreStand(t.measures, facts, tallest);
  let all = [...first].sort(better);
  for (const turn of turns) {
    const round = apart(all, refined).flatMap((t) => (standsFlat(t) ? [] : lookRound(t.up, turn)));
    all = [...all, ...measured(round)].sort(better);
  }
  const exact = mesh.triangles.length / 3 <= mostExact;
  // The air may change their order: a few more are looked at than are given.
  const fits = (t: Tried): boolean => t.measures.fits;
  const chosen = [
    ...apart(all.filter(fits), count + 2),
    ...apart(
      all.filter((t) => !fits(t)),
      count,
    ),
  ];
  const sorted = chosen.map((t) => (exact ? withExactAir(mesh, t) : t)).sort(better);
  const fitting = sorted.filter(fits).slice(0, count);
  const others = sorted.filter((t) => !fits(t));
  // Of those that do not fit only one that is better than all that do is worth telling.
  const missed = others.filter((t) => fitting[0] && scoreOf(t) > scoreOf(fitting[0])).slice(0, 1);
  const given = fitting.length > 0 ? [...fitting, ...missed] : others.slice(0, count);
  return given.map(({ up, measures }) => ({
    direction: up,
    name: nameDirection(up),
    score: scoreStand(measures, facts, tallest),
    measures,
    reasons: sayReasons(measures, bed),
  }));
}

/** What fits before what does not, then by score; as good ones keep their order. */
const asGood = 1e-3;

const byScore =
  (facts: StandFacts, tallest: number) =>
  (a: Tried, b: Tried): number => {
    if (a.measures.fits !== b.measures.fits) return a.measures.fits ? -1 : 1;
    const steps = (t: Tried): number => Math.round(scoreStand(t.measures, facts, tallest) / asGood);
    return steps(b) - steps(a);
  };

const standsFlat = ({ measures }: Tried): boolean => measures.foot > 1 && measures.balance > 0;

function candidates({ mesh, hull, mass, areas, sizes }: StandFacts): readonly Vec3[] {
  const own = inertiaAxes(mesh, mass);
  const back = (a: Vec3): Vec3 => [-a[0], -a[1], -a[2]];
  const turned = evenSphere(sphere).map(([x, y, z]) =>
    unit(along(along(times(own[0], x), own[1], y), own[2], z)),
  );
  const sides = hull.sides.slice(0, mostSides).map(({ normal }) => flatSide(back(normal), areas, sizes));
  const found: Vec3[] = [];
  for (const up of [...axes, ...sides, ...own, ...own.map(back), ...turned]) {
    // A direction that is an axis but for rounding is the axis, so that it is turned exactly.
    const axis = axes.find((a) => dot(a, up) > 1 - 1e-10);
    const direction = axis ?? up;
    if (!found.some((f) => dot(f, direction) > 1 - 1e-7)) found.push(direction);
  }
  return found;
}

/** The direction square to the part's own surface that faces down when `up` is up: truer than the hull's facets. */
function flatSide(up: Vec3, areas: Float64Array, sizes: Float64Array): Vec3 {
  let [x, y, z] = [0, 0, 0];
  const nearly = maths.cos((0.3 * Math.PI) / 180);
  for (let n = 0, f = 0; n < sizes.length; n++, f += 3) {
    const seen = up[0] * areas[f]! + up[1] * areas[f + 1]! + up[2] * areas[f + 2]!;
    if (-seen < nearly * sizes[n]! || sizes[n] === 0) continue;
    x -= areas[f]!;
    y -= areas[f + 1]!;
    z -= areas[f + 2]!;
  }
  return x === 0 && y === 0 && z === 0 ? up : unit([x, y, z]);
}

/** The first of those sorted, then each that is not near one before it. */
function apart(sorted: readonly Tried[], count: number): Tried[] {
  const kept: Tried[] = [];
  const near = maths.cos(leastApart);
  for (const t of sorted) {
    if (kept.length === count) break;
    if (kept.every((k) => dot(k.up, t.up) < near)) kept.push(t);
  }
  return kept;
}

const lookRound = (up: Vec3, angle: number): readonly Vec3[] => {
  const [u, v] = planAxes(up);
  const out = maths.tan(angle);
  return Array.from({ length: 6 }, (_, i) => {
    const turn = (Math.PI * i) / 3;
    return unit(along(along(up, u, out * maths.cos(turn)), v, out * maths.sin(turn)));
  });
};

function withExactAir(mesh: Mesh, { up, measures }: Tried): Tried {
  const { pockets } = findPockets(mesh, { up });
  const volume = pockets.reduce((sum, p) => sum + p.volume, 0);
  return { up, measures: { ...measures, air: { places: pockets.length, volume, estimated: false } } };
}
