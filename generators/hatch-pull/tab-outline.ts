import { maths } from '../../core/maths/maths.js';
import {
  arc,
  arcBetween,
  line,
  type Outline,
  type OutlinePiece,
  roundCorners,
} from '../../core/shape/index.js';
import type { Vec2 } from '../../core/solid/types.js';
import { closeBelow, type PullPlan, planOf, ringOutline, squareEnd } from '../hardware/ring-plan.js';
import type { PullState } from './levels.js';

/**
 * Lower half of a leaf's end, from the middle of its nose to the straight side: a nose of radius `nose`, and an arc from it that
 * runs out tangent to the side at x = −side.
 */
export function leafEnd(tabEnd: number, h: number, nose: number, side: number): Outline {
  const at = tabEnd - nose;
  if (h - nose < 1e-3) return squareEnd(tabEnd, h, h);
  const bow = bowRadius(at - side, h, nose);
  const centre: Vec2 = [-side, bow - h];
  const far = maths.hypot(at - side, bow - h);
  const touch: Vec2 = [-at - (nose * (at - side)) / far, (nose * (h - bow)) / far];
  return [arcBetween([-tabEnd, 0], touch, [-at, 0], false), arcBetween(touch, [-side, -h], centre, false)];
}

/** Radius of the leaf's bowed side. */
export const bowRadius = (length: number, h: number, nose: number): number =>
  (length ** 2 + h ** 2 - nose ** 2) / (2 * (h - nose));

/** Where the leaf's sides begin to bow in: just behind the fillets. */
export const leafSide = (plan: PullPlan): number => plan.filletX + 0.8;

/** The plan with the tab's sides moved by what their stock is over the skin's: the skin's offset puts them right. */
const stepped = ({ sizes, sideStep }: PullState): PullPlan =>
  planOf({ ...sizes, tabWidth: sizes.tabWidth + 2 * sideStep });

function tabEndPieces({ sizes, tabEnd }: PullState, plan: PullPlan): Outline {
  const h = plan.tabHalf;
  return sizes.tab === 'leaf'
    ? leafEnd(tabEnd, h, Math.min(sizes.tabCorner, h), leafSide(plan))
    : squareEnd(tabEnd, h, Math.min(sizes.tabCorner, h));
}

/** Rim and tab in one, as a bevelled pull has them. */
export function pullPlanOutline(state: PullState): Outline {
  const plan = stepped(state);
  return ringOutline(plan, state.tabEnd, state.sizes.tabCorner, tabEndPieces(state, plan));
}

/** The tab alone, ending along the middle of an oval ring's section. */
export function tabOutline(state: PullState): Outline {
  const plan = stepped(state);
  const { halfX, halfY, inner, tabHalf: h } = plan;
  const middle = inner + state.sizes.rimWidth / 2;
  const end = tabEndPieces(state, plan);
  const up = Math.max(0, h - halfY);
  // Straight across where that stays near the middle of the section; else round with the ring.
  const straight = middle - Math.sqrt(middle ** 2 - up ** 2) < 0.35 * (state.sizes.rimWidth / 2);
  const root = -halfX - Math.sqrt(middle ** 2 - up ** 2);
  const sideFrom = end[end.length - 1]!;
  const from: Vec2 =
    sideFrom.kind === 'line'
      ? sideFrom.to
      : [
          sideFrom.centre[0] + sideFrom.radius * maths.cos(sideFrom.start + sideFrom.sweep),
          sideFrom.centre[1] + sideFrom.radius * maths.sin(sideFrom.start + sideFrom.sweep),
        ];
  const rise = maths.atan2(-up, root + halfX);
  const back: OutlinePiece[] = straight
    ? [line([root, -h], [root, 0])]
    : [
        // Clockwise: the tab is hollow there.
        arc([-halfX, -halfY], middle, rise, -Math.PI - rise),
        line([-halfX - middle, -halfY], [-halfX - middle, 0]),
      ];
  const below = [...end, line(from, [root, -h]), ...back].filter(
    (piece) =>
      piece.kind === 'arc' || maths.hypot(piece.to[0] - piece.from[0], piece.to[1] - piece.from[1]) > 1e-9,
  );
  // What stands over the ring's crown before the underside is cut must be smooth too.
  const rounding = Math.max(state.sizes.edgeRadius, Math.min(0.2 * state.sizes.rimWidth, 0.8 * h));
  return roundCorners(closeBelow(below), (_, turn) => (turn > 0.2 ? rounding : 0));
}
