import { maths } from '../../maths/maths.js';
import { circleRound } from '../../shape/circle-round.js';
import { planeHull } from '../../solid/plane-hull.js';
import type { Vec2 } from '../../solid/types.js';
import { runnerLean } from '../gating/runners.js';
import { leastRise, placeTree, type TreePlace } from '../gating/tree.js';
import { keepsApart, placeOutline } from './outline.js';
import { type Stander, settle } from './settle.js';
import { standInRow, standInWedges, standRoundOne } from './starts.js';

/** Patterns of one kind that go on a tree. */
export interface KindToPlace {
  /** Points in plan whose hull holds one, mm. */
  readonly outline: readonly Vec2[];
  /** Where the metal enters it. */
  readonly gate: Vec2;
  readonly count: number;
}

/**
 * Patterns of several kinds about a sprue at the origin, `gap` mm of mould or more between their convex outlines: each
 * first in a wedge as wide as it needs, gate inwards, then drawn together as long as the mould gets smaller. The same
 * for the same input on any machine.
 * @returns for each kind the places of its patterns
 */
export function placeKinds(kinds: readonly KindToPlace[], gap: number): readonly (readonly TreePlace[])[] {
  const standers = kinds.flatMap(({ outline, gate, count }, kind): readonly Stander[] => {
    const hull = planeHull(outline);
    return Array.from({ length: count }, () => ({ hull, gate, kind }));
  });
  const starts = [
    ...unlike([evenly(standers), standers]).map((order) => ({ order, places: standInWedges(order, gap) })),
    { order: standers, places: standInRow(standers, gap) },
    ...(standers.length > 5
      ? unlike(standers.map((s) => [s, ...evenly(standers.filter((other) => other !== s))]))
          .slice(0, mostInMiddle)
          .map((order) => ({ order, places: standRoundOne(order, gap) }))
      : []),
    ...(kinds.length === 1
      ? [{ order: standers, places: placeTree(kinds[0]!.outline, kinds[0]!.gate, standers.length, gap) }]
      : []),
  ];
  // Outlines are rough while they are drawn together: the start itself may be the better one.
  const found = starts
    .flatMap(({ order, places }) => [places, settle(order, places, gap)].map((at) => ({ order, at })))
    .filter(({ order, at }) => keepApart(order, at, gap))
    .map((tried) => ({ ...tried, size: treeSize(tried.order, tried.at) }));
  const best = found.reduce((a, b) => (b.size < a.size * (1 - 1e-9) ? b : a));
  const { x: mx, y: my } = circleRound(gatesOf(best.order, best.at).flat());
  return kinds.map((_, kind) =>
    best.at.flatMap(({ turn, x, y }, i) =>
      best.order[i]?.kind === kind ? [{ turn, x: x - mx, y: y - my }] : [],
    ),
  );
}

/** Whether all of them do; less what rounding costs. */
function keepApart(order: readonly Stander[], places: readonly TreePlace[], gap: number): boolean {
  const at = order.map(({ hull }, i) => placeOutline(hull, places[i] as TreePlace));
  return at.every((a, i) => at.slice(i + 1).every((b) => keepsApart(a, b, gap - 1e-9)));
}

const gatesOf = (order: readonly Stander[], places: readonly TreePlace[]): readonly Vec2[] =>
  order.map(({ gate }, i) => standAt(gate, places[i] as TreePlace));

const standAt = ([x, y]: Vec2, at: TreePlace): Vec2 => [
  x * maths.cos(at.turn) - y * maths.sin(at.turn) + at.x,
  x * maths.sin(at.turn) + y * maths.cos(at.turn) + at.y,
];

/** The mould's size: as wide as its patterns reach from the sprue, as high as the runners to their gates rise. */
export function treeSize(order: readonly Stander[], places: readonly TreePlace[]): number {
  const gates = gatesOf(order, places);
  const { x: mx, y: my } = circleRound(gates.flat());
  const out = (p: Vec2): number => maths.hypot(p[0] - mx, p[1] - my);
  const reach = Math.max(
    ...order.flatMap(({ hull }, i) => hull.map((p) => out(standAt(p, places[i] as TreePlace)))),
  );
  return reach ** 2 * (leastRise + Math.max(...gates.map(out)) * maths.tan(runnerLean));
}

/** Kinds of which one is tried in the middle. */
const mostInMiddle = 3;

/** Orders that differ. */
const unlike = (orders: readonly (readonly Stander[])[]): readonly (readonly Stander[])[] =>
  orders.filter((order, i) => orders.findIndex((o) => sameKinds(o, order)) === i);

const sameKinds = (a: readonly Stander[], b: readonly Stander[]): boolean =>
  a.every((s, i) => s.kind === b[i]?.kind);

/** The kinds in turn, each spread as evenly as its number lets it. */
function evenly(standers: readonly Stander[]): readonly Stander[] {
  const counts = new Map<number, number>();
  for (const { kind } of standers) counts.set(kind, (counts.get(kind) ?? 0) + 1);
  const taken = new Map<number, number>();
  return standers
    .map((s, i) => {
      const n = taken.get(s.kind) ?? 0;
      taken.set(s.kind, n + 1);
      return { s, i, at: (n + 0.5) / (counts.get(s.kind) as number) };
    })
    .sort((a, b) => a.at - b.at || a.i - b.i)
    .map(({ s }) => s);
}
