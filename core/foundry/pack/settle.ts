/** Draws patterns that stand about a sprue together. */

import { maths } from '../../maths/maths.js';
import { circleRound } from '../../shape/circle-round.js';
import type { Vec2 } from '../../solid/types.js';
import { runnerLean } from '../gating/runners.js';
import { leastRise, type TreePlace } from '../gating/tree.js';
import { keepsApart, placeOutline, roughen } from './outline.js';

/** One pattern to stand: corners of its convex outline, its gate, and which of the kinds it is. */
export interface Stander {
  readonly hull: readonly Vec2[];
  readonly gate: Vec2;
  readonly kind: number;
}

interface Standing {
  readonly place: TreePlace;
  readonly corners: readonly Vec2[];
  readonly gate: Vec2;
}

/** Corners of an outline while it is moved. */
const mostCorners = 20;

/** mm; turns by as much of 60 mm. Each half of the last. */
const steps = [8, 4, 2, 1, 0.5, 0.25, 0.1];
const armOfTurn = 30;

/** Rounds at most with each step. */
const rounds = 12;

/** What each pattern's own nearness counts beside the whole's size: those inside come in too, and make room. */
const ownShare = 0.02;

/** The places after no move of one pattern makes the mould smaller; they keep `gap` apart. */
export function settle(
  order: readonly Stander[],
  places: readonly TreePlace[],
  gap: number,
): readonly TreePlace[] {
  const rough = new Map(order.map((s) => [s.kind, roughen(s.hull, mostCorners)]));
  const outlines = order.map((s) => rough.get(s.kind)!);
  const stand = (i: number, place: TreePlace): Standing => ({
    place,
    corners: placeOutline(outlines[i]!.corners, place),
    gate: placeOutline([order[i]!.gate], place)[0]!,
  });
  const clear = (i: number, at: Standing, among: readonly Standing[]): boolean =>
    among.every(
      (other, k) =>
        k === i || keepsApart(at.corners, other.corners, gap + outlines[i]!.short + outlines[k]!.short),
    );
  let now = places.map((place, i) => stand(i, place));
  // Rough outlines ask for a little more room than the true ones have.
  for (let k = 0; k < 200 && !now.every((at, i) => clear(i, at, now)); k++)
    now = now.map(({ place }, i) => stand(i, { ...place, x: 1.01 * place.x, y: 1.01 * place.y }));
  let size = sizeOf(now);
  for (const step of steps)
    for (let round = 0; round < rounds; round++) {
      const before = size;
      for (let i = 0; i < now.length; i++)
        for (const move of movesOf(now[i]!, step)) {
          const at = stand(i, move);
          const next = now.map((other, k) => (k === i ? at : other));
          const smaller = sizeOf(next);
          if (smaller >= size || !clear(i, at, now)) continue;
          [now, size] = [next, smaller];
          break;
        }
      if (size > before * (1 - 1e-4)) break;
    }
  return now.map((s) => s.place);
}

/** In, aside, between, and turned about its middle. */
function movesOf({ place, corners }: Standing, step: number): readonly TreePlace[] {
  const [x, y] = middle(corners);
  const out = Math.max(1e-9, maths.hypot(x, y));
  const [ux, uy] = [x / out, y / out];
  const go = (along: number, across: number): TreePlace => ({
    ...place,
    x: place.x + step * (along * ux - across * uy),
    y: place.y + step * (along * uy + across * ux),
  });
  const turned = (by: number): TreePlace => {
    const [c, s] = [maths.cos(by), maths.sin(by)];
    const [dx, dy] = [place.x - x, place.y - y];
    return { turn: place.turn + by, x: x + c * dx - s * dy, y: y + s * dx + c * dy };
  };
  const by = step / armOfTurn;
  return [
    go(-1, 0),
    go(-0.7, 0.7),
    go(-0.7, -0.7),
    go(0, 1),
    go(0, -1),
    turned(by),
    turned(-by),
    go(0.3, 0.7),
    go(0.3, -0.7),
    go(1, 0),
  ];
}

const middle = (points: readonly Vec2[]): Vec2 => [
  points.reduce((sum, p) => sum + p[0], 0) / points.length,
  points.reduce((sum, p) => sum + p[1], 0) / points.length,
];

/** As `treeSize` has it, and a little of what each pattern reaches by itself. */
function sizeOf(all: readonly Standing[]): number {
  const { x: mx, y: my, squared } = circleRound(all.flatMap((s) => s.gate));
  const reaches = all.map(({ corners }) => {
    let most = 0;
    for (const [x, y] of corners) most = Math.max(most, (x - mx) * (x - mx) + (y - my) * (y - my));
    return most;
  });
  const own = reaches.reduce((sum, r) => sum + r, 0) / reaches.length;
  return (Math.max(...reaches) + ownShare * own) * (leastRise + Math.sqrt(squared) * leanTangent);
}

const leanTangent = maths.tan(runnerLean);
