import { maths } from '../../core/maths/maths.js';
import type { Stock } from '../../core/part/stock.js';
import {
  arc,
  line,
  type Outline,
  type OutlinePiece,
  pieceAt,
  pieceEnd,
  pieceStart,
} from '../../core/shape/index.js';
import type { Vec2 } from '../../core/solid/types.js';
import type { FlushPullSizes } from './sizes.js';

/**
 * Side of a dish, in [outset from the opening's outline, z], mm: round below, up along a leaning wall, then flared by
 * a quarter out into a face. The recess is one, and so is the cup round it, its parallel.
 */
export interface DishSide {
  readonly low: number;
  readonly high: number;
  /** The wall's distance from the line through the opening's edge at the face, square to it. */
  readonly out: number;
  /** Height of that edge. */
  readonly face: number;
  /** From upright, radians. */
  readonly draft: number;
  /** Radius below, and of the flare. */
  readonly round: number;
  readonly flare: number;
}

/** How far a fillet between a level face and the leaning wall reaches along both. */
export const filletReach = (radius: number, draft: number): number =>
  radius * maths.tan(Math.PI / 4 - draft / 2);

/** Outset of the wall at a height. */
export const wallAt = ({ out, face, draft }: Pick<DishSide, 'out' | 'face' | 'draft'>, z: number): number =>
  out / maths.cos(draft) + (z - face) * maths.tan(draft);

/** Where the wall is straight, from and to. Negative length where the roundings leave no room. */
export function straightOf({ low, high, draft, round, flare }: DishSide): readonly [number, number] {
  const share = 1 - maths.sin(draft);
  return [low + round * share, high - flare * share];
}

/** Outset of the level floor's edge, and of the flare's end. */
export const floorEdge = (side: DishSide): number =>
  wallAt(side, side.low) - filletReach(side.round, side.draft);
export const flareEnd = (side: DishSide): number =>
  wallAt(side, side.high) + filletReach(side.flare, side.draft);

/** The profile from the floor's edge to the flare's end, and `past` mm straight up. */
export function dishProfile(side: DishSide, past: number): Outline {
  const { low, high, draft, round, flare } = side;
  const quarter = Math.PI / 2 - draft;
  const below = arc([floorEdge(side), low + round], round, -Math.PI / 2, quarter);
  const above = arc([flareEnd(side), high - flare], flare, Math.PI - draft, -quarter);
  const end: Vec2 = pieceEnd(above);
  return [below, line(pieceEnd(below), pieceStart(above)), above, line(end, [end[0], end[1] + past])];
}

/** The recess with its skin's stock, its mouth at the cast face: what is taken away. */
export const recessSide = (s: FlushPullSizes, { skin, face }: Stock): DishSide => ({
  low: s.wall + skin,
  high: s.top + face,
  out: -skin,
  face: s.top,
  draft: s.draft,
  round: s.floorFillet - skin,
  flare: s.rimRadius + skin,
});

/** The cup round it, up to the plate's underside. */
export const cupSide = (s: FlushPullSizes, { skin, mating }: Stock): DishSide => ({
  low: -skin,
  high: s.under - mating,
  out: s.wall + skin,
  face: s.top,
  draft: s.draft,
  round: s.floorFillet + s.wall + skin,
  flare: s.fillet - skin,
});

/** Outset of the side at a height over its round. */
function outsetAt(side: DishSide, z: number): number {
  const over = z - (side.high - side.flare);
  if (z <= straightOf(side)[1]) return wallAt(side, z);
  return flareEnd(side) - Math.sqrt(Math.max(0, side.flare ** 2 - over ** 2));
}

/** Thinnest metal between the rim's rounding and the hidden side of cup and plate, mm; 0 where one pierces the other. */
export function rimThickness(recess: DishSide, cup: DishSide): number {
  const n = 48;
  const share = Array.from({ length: n + 1 }, (_, i) => i / n);
  const [, , rim] = dishProfile(recess, 1) as [unknown, unknown, OutlinePiece];
  const [, wall, fillet] = dishProfile(cup, 1) as [unknown, OutlinePiece, OutlinePiece];
  const end = pieceEnd(fillet);
  const under = line(end, [Math.max(end[0], pieceEnd(rim)[0]) + 0.5, end[1]]);
  const hidden = [wall, fillet, under].flatMap((piece) => share.map((u) => pieceAt(piece, u)));
  let least = Number.POSITIVE_INFINITY;
  for (const [x, z] of share.map((u) => pieceAt(rim, u))) {
    if (z < cup.high && x >= outsetAt(cup, z)) return 0;
    for (const [hx, hz] of hidden) least = Math.min(least, maths.hypot(x - hx, z - hz));
  }
  return least;
}
