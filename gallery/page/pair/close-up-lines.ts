import type { MemberSection } from '../../../core/gear/running/outlines.js';
import type { Stand } from '../../../core/gear/running/stand.js';
import type { Vec2 } from '../../../core/solid/types.js';

/** How the section lies on the picture: pixels a mm, the pitch point in the middle, turned by the frame. */
export interface Lie {
  readonly width: number;
  readonly height: number;
  readonly scale: number;
  readonly pitchPoint: Vec2;
  /** rad */
  readonly frame: number;
}

const degrees = 180 / Math.PI;

/** Four places keep the outline within a tenth of a µm. */
const figure = (value: number): string => String(Number(value.toFixed(4)));

export const outlinePath = ({ outline }: MemberSection): string =>
  `M${outline.map(([x, y]) => `${figure(x)} ${figure(y)}`).join('L')}Z`;

/** From mm in the pair's frame, Y up, to the picture. */
export const lieTransform = ({ width, height, scale, pitchPoint: [x, y], frame }: Lie): string =>
  `translate(${width / 2} ${height / 2}) scale(${scale} ${-scale}) rotate(${frame * degrees}) translate(${-x} ${-y})`;

export const standTransform = ({ turn, at: [x, y] }: Stand): string =>
  `translate(${x} ${y}) rotate(${turn * degrees})`;

/** Where a point of the pair's frame lies on the picture, px. */
export function onPicture(lie: Lie, [x, y]: Vec2): Vec2 {
  const [u, v] = [x - lie.pitchPoint[0], y - lie.pitchPoint[1]];
  const [c, s] = [Math.cos(lie.frame), Math.sin(lie.frame)];
  return [lie.width / 2 + lie.scale * (c * u - s * v), lie.height / 2 - lie.scale * (s * u + c * v)];
}

/** Two arrows that point at a gap from outside, px: each its tail, its point, and the two ends of its barbs. */
export function gapArrows(from: Vec2, to: Vec2, along: Vec2, length = 16): readonly string[] {
  const size = Math.hypot(...along) || 1;
  const [ux, uy] = [along[0] / size, along[1] / size];
  const arrow = ([x, y]: Vec2, way: 1 | -1): string => {
    const [dx, dy] = [way * ux, way * uy];
    const barb = (side: 1 | -1): string => `${x - 6 * dx - side * 3 * dy} ${y - 6 * dy + side * 3 * dx}`;
    return `M${x - length * dx} ${y - length * dy}L${x} ${y}M${barb(1)}L${x} ${y}L${barb(-1)}`;
  };
  return [arrow(from, 1), arrow(to, -1)];
}
