import { arcBetween, line, type Outline, roundCorners } from '../../core/shape/index.js';
import type { Vec2 } from '../../core/solid/types.js';
import type { RudderSizes } from './sizes.js';
import { bossFillet, innerCorner, outerHalf, strapShoulder } from './strap-shape.js';

/** Seen along the pin: boss, web and two straps about the wood, or boss and plate. */
export const planOutline = (s: RudderSizes): Outline => (s.mount === 'strap' ? strapPlan(s) : platePlan(s));

/** Rounded ends of straps and plate. */
export const endCorner = (s: RudderSizes): number => 0.42 * s.thickness;

/**
 * Straps run on to the boss along lines that touch it; where the boss is wider than they are, its circle comes out of
 * them.
 */
function strapPlan(s: RudderSizes): Outline {
  const [outer, inner] = [outerHalf(s), s.wood / 2];
  const [wood, end] = [s.standOff, s.standOff + s.reach];
  const { knee, foot } = strapShoulder(s);
  const mirror = ([x, y]: Vec2): Vec2 => [x, -y];
  const chain = path([
    mirror(knee),
    [end, -outer],
    [end, -inner],
    [wood, -inner],
    [wood, inner],
    [end, inner],
    [end, outer],
    knee,
  ]);
  const narrow = foot !== knee;
  const boss = arcBetween(foot, mirror(foot), [0, 0], false);
  const sharp = narrow
    ? [...chain, line(knee, foot), boss, line(mirror(foot), mirror(knee))]
    : [...chain, boss];
  return roundCorners(sharp, (corner) => {
    if (corner === 2 || corner === 3) return innerCorner(s);
    if (corner === 0 || corner === 1 || corner === 4 || corner === 5) return endCorner(s);
    if (narrow) return corner === 6 || corner === 9 ? 2 * s.thickness : 0;
    return s.fillet;
  });
}

function platePlan(s: RudderSizes): Outline {
  const chain = path([
    [s.front, -s.reach],
    [s.standOff, -s.reach],
    [s.standOff, s.reach],
    [s.front, s.reach],
  ]);
  return roundCorners([...chain, ...bossPieces(s, s.reach)], (corner) => {
    // The back's edges stay nearly sharp: they lie on the wood.
    if (corner === 0 || corner === 1) return s.edge;
    if (corner === chain.length - 1 || corner === chain.length + 4) return endCorner(s);
    return bossFillet(s);
  });
}

/** From (front, half) along the front to the boss, straight out beside it, round it and on to (front, −half). */
function bossPieces({ front, bossRadius: r }: RudderSizes, half: number): Outline {
  return [
    ...path([
      [front, half],
      [front, r],
      [0, r],
    ]),
    arcBetween([0, r], [0, -r], [0, 0], false),
    ...path([
      [0, -r],
      [front, -r],
      [front, -half],
    ]),
  ];
}

const path = (points: readonly Vec2[]): Outline =>
  points.slice(1).map((to, i) => line(points[i] as Vec2, to));
