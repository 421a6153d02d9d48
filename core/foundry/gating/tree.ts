import { maths } from '../../maths/maths.js';
import type { GatePlace, VentPlace } from '../../part/contract.js';
import type { Vec2, Vec3 } from '../../solid/types.js';
import type { GatingCasting } from './input.js';
import { runnerLean } from './runners.js';

/** Where one of the patterns of a tree stands: turned about Z, then moved. Radians, mm. */
export interface TreePlace {
  readonly turn: number;
  readonly x: number;
  readonly y: number;
}

/** Patterns more than this round one sprue stand so far out that their runners cost more than a second mould. */
export const mostOnTree = 8;

/** One pattern, as it is. */
export const alone: readonly TreePlace[] = [{ turn: 0, x: 0, y: 0 }];

/** What a mould is high without runners: a small pattern, its sprue and cup, mm. Common practice, no source. */
export const leastRise = 80;

/** Ways tried to turn a pattern towards the sprue. */
const turnsTried = 36;

/**
 * Copies of a pattern round one sprue at the origin, each in its own equal sector and `gap` mm from the next, turned so
 * that the mould they make is small: the circle round them, and the height of the runners to their gates.
 * @param outline points in plan whose hull holds the pattern, mm
 * @param gate where the metal enters it, mm
 */
export function placeTree(
  outline: readonly Vec2[],
  gate: Vec2,
  copies: number,
  gap: number,
): readonly TreePlace[] {
  if (copies === 1) return alone;
  const half = Math.PI / copies;
  const tries = Array.from({ length: turnsTried }, (_, i) => {
    const turn = (2 * Math.PI * i) / turnsTried;
    const turned = outline.map((p) => turnPoint(p, turn));
    const ys = turned.map((p) => p[1]);
    const y = -(Math.min(...ys) + Math.max(...ys)) / 2;
    // Half the gap from the sector's edges, y = ± x tan(half).
    const x = Math.max(
      ...turned.map(([px, py]) => (gap / 2 + maths.cos(half) * Math.abs(py + y)) / maths.sin(half) - px),
    );
    const reach = Math.max(...turned.map(([px, py]) => maths.hypot(px + x, py + y)));
    const [gx, gy] = turnPoint(gate, turn);
    return { turn, x, y, reach, gate: maths.hypot(gx + x, gy + y) };
  });
  // The mould's size: as wide as its patterns reach, as high as the runners to their gates rise.
  const size = (t: (typeof tries)[number]): number =>
    t.reach ** 2 * (leastRise + t.gate * maths.tan(runnerLean));
  const best = tries.reduce((a, b) => (size(b) < size(a) * (1 - 1e-9) ? b : a));
  return Array.from({ length: copies }, (_, i) => {
    const round = 2 * half * i;
    const [x, y] = turnPoint([best.x, best.y], round);
    return { turn: best.turn + round, x, y };
  });
}

const turnPoint = ([x, y]: Vec2, turn: number): Vec2 => [
  x * maths.cos(turn) - y * maths.sin(turn),
  x * maths.sin(turn) + y * maths.cos(turn),
];

const moved = ([x, y, z]: Vec3, place: TreePlace): Vec3 => {
  const [tx, ty] = turnPoint([x, y], place.turn);
  return [tx + place.x, ty + place.y, z];
};

/** A place on each pattern of the tree. */
export const onEach = <P extends GatePlace | VentPlace>(place: P, tree: readonly TreePlace[]): readonly P[] =>
  tree.map((at) => ({ ...place, at: moved(place.at, at) }));

/** All patterns of the tree as one casting; its radius is that of the circle round them. */
export const wholeTree = (casting: GatingCasting, copies: number): GatingCasting => ({
  ...casting,
  volume: copies * casting.volume,
  area: copies * casting.area,
  mass: copies * casting.mass,
});
