import { maths } from '../../core/maths/maths.js';
import {
  arc,
  arcBetween,
  line,
  type Outline,
  type OutlinePiece,
  offsetOutline,
  pieceEnd,
  pieceStart,
  roundCorners,
} from '../../core/shape/index.js';
import { chordsOf, outlinePoints } from '../../core/shape/sample-outline.js';
import { SolidError } from '../../core/solid/errors.js';
import type { Polygon, Vec2 } from '../../core/solid/types.js';
import type { KnobSizes } from './sizes.js';

/** Radius of the dome's ball, mm; infinite for a flat face. */
export const domeRadius = ({ head, dome }: Pick<KnobSizes, 'head' | 'dome'>): number =>
  dome < 0.01 ? Number.POSITIVE_INFINITY : (head * head) / (8 * dome) + dome / 2;

/** Corners of the profile, [r, z], crown at z = 0 and foot above, before they are rounded. */
export function profileCorners(
  s: KnobSizes,
): Readonly<Record<'rim' | 'back' | 'neck' | 'root' | 'footInside' | 'footOutside', Vec2>> {
  const [R, r] = [s.head / 2, s.spindle / 2];
  const back = s.dome + s.rim;
  return {
    rim: [R, s.dome],
    back: [R, back],
    neck: [r, back + (R - r) * maths.tan(s.slope)],
    root: [r, s.projection - s.footThickness],
    footInside: [s.foot / 2, s.projection - s.footThickness],
    footOutside: [s.foot / 2, s.projection],
  };
}

/**
 * The knob's profile from the crown's middle to the foot's, in [r, z]: lines and arcs, all tangent but at the foot's
 * underside; with stock moved by the skin, the foot's underside by the mating stock. Null when the roundings do not
 * fit between one another.
 */
export function knobProfile(s: KnobSizes, skin = 0, mating = 0): Outline | null {
  const c = profileCorners({ ...s, projection: s.projection });
  const foot: Vec2 = [c.footOutside[0], c.footOutside[1] + mating - skin];
  const top: Vec2 = [0, foot[1]];
  const ball = domeRadius(s);
  const face: OutlinePiece = Number.isFinite(ball)
    ? arcBetween([0, 0], c.rim, [0, ball], false)
    : line([0, 0], c.rim);
  const right: readonly OutlinePiece[] = [
    face,
    line(c.rim, c.back),
    line(c.back, c.neck),
    line(c.neck, c.root),
    line(c.root, c.footInside),
    line(c.footInside, foot),
    line(foot, top),
  ];
  const radii = [s.frontEdge, s.backEdge, s.headFillet, s.footFillet, s.footEdge, 0, 0];
  try {
    const whole = [...right, ...right.map(mirrored).reverse()];
    const n = right.length;
    const rounded = roundCorners(whole, (i) => (i < n ? radii[i]! : (radii[2 * n - 2 - i] ?? 0)));
    const moved = skin === 0 ? rounded : offsetOutline(rounded, skin);
    // The right half: pieces that do not lie left of the axis.
    return moved.filter((piece) => pieceStart(piece)[0] + pieceEnd(piece)[0] > 1e-9);
  } catch (error) {
    if (error instanceof SolidError) return null;
    throw error;
  }
}

/** The piece seen in the axis, run the other way. */
const mirrored = (piece: OutlinePiece): OutlinePiece =>
  piece.kind === 'line'
    ? line([-piece.to[0], piece.to[1]], [-piece.from[0], piece.from[1]])
    : arc(
        [-piece.centre[0], piece.centre[1]],
        piece.radius,
        Math.PI - piece.start - piece.sweep,
        piece.sweep,
      );

/** The half profile as a polygon, closed along the axis. */
export const profilePolygon = (profile: Outline, tolerance: number): Polygon =>
  outlinePoints(profile, chordsOf(profile, tolerance), true).map(([r, z]) => [Math.abs(r) < 1e-9 ? 0 : r, z]);
