import { maths } from '../../core/maths/maths.js';
import { arcBetween, line, type Outline, polygonOutline, roundCorners } from '../../core/shape/index.js';
import type { Vec2 } from '../../core/solid/types.js';
import { type StrapHingeSizes, straightShare } from './sizes.js';

/** The strap in plan, from the fillet's foot to its tip. */
export function strapOutline(s: StrapHingeSizes): Outline {
  const root = s.rootWidth / 2;
  const centre: Vec2 = [s.length - s.tipRadius, 0];
  const r = s.tipRadius;
  // Where the taper's side, drawn on, comes to the tip's circle: on it for a disc, touching it for a round tip.
  const foot = s.hasDisc ? discFoot(s, centre[0]) : tangentFoot(s, centre[0]);
  const [fx, fy] = foot;
  const start: Vec2 = [s.taperStart, root];
  const left = s.leafStart;
  const mirror = ([x, y]: Vec2): Vec2 => [x, -y];
  const sharp: Outline = [
    line([left, root], [left, -root]),
    line([left, -root], mirror(start)),
    line(mirror(start), [fx, -fy]),
    arcBetween([fx, -fy], [fx, fy], centre, false),
    line([fx, fy], start),
    line(start, [left, root]),
  ];
  const neck = 0.8 * r;
  return roundCorners(sharp, (corner, turn) => {
    if (corner === 2 || corner === 3) return s.hasDisc ? neck : 0;
    if (corner === 0 || corner === 5) return 0;
    // Where the taper begins, as far as the straight root before it goes.
    return Math.min(
      s.rootWidth,
      ((1 - straightShare) * (s.taperStart - s.leafStart)) / maths.tan(Math.abs(turn) / 2),
    );
  });
}

/** On the disc's circle, where the tip's width meets it. */
function discFoot(s: StrapHingeSizes, centre: number): Vec2 {
  const half = Math.min(s.tipWidth / 2, 0.9 * s.tipRadius);
  return [centre - Math.sqrt(s.tipRadius ** 2 - half ** 2), half];
}

/** Where a line from the taper's start touches the tip's circle. */
function tangentFoot(s: StrapHingeSizes, centre: number): Vec2 {
  const [dx, dy] = [s.taperStart - centre, s.rootWidth / 2];
  const far = maths.hypot(dx, dy);
  const angle = maths.atan2(dy, dx) - maths.acos(s.tipRadius / far);
  return [centre + s.tipRadius * maths.cos(angle), s.tipRadius * maths.sin(angle)];
}

/** The plate in plan, from the fillet's foot. */
export function plateOutline(s: StrapHingeSizes): Outline {
  const half = s.rootWidth / 2;
  const sharp = polygonOutline([
    [s.leafStart, -half],
    [s.plateWidth, -half],
    [s.plateWidth, half],
    [s.leafStart, half],
  ]);
  return roundCorners(sharp, (corner) => (corner === 0 || corner === 1 ? s.corner : 0));
}
