import { maths } from '../../core/maths/maths.js';
import {
  blendFields,
  type Field,
  type Outline,
  obroundOutline,
  plateField,
  sweepTube,
  type Tube,
  tubeField,
} from '../../core/shape/index.js';
import type { Vec3 } from '../../core/solid/types.js';
import { underDeck } from '../hardware/deck-body.js';
import type { BowPullSizes } from './sizes.js';

/**
 * Centre line of the grip by an angle that runs from 0 at one foot to π at the other: a superellipse, going straight
 * on below the door at its ends, where its curvature is nought.
 */
export function spineAt({ legX, crown, archExponent: n }: BowPullSizes, angle: number): Vec3 {
  if (angle <= 0) return [legX, 0, crown * angle];
  if (angle >= Math.PI) return [-legX, 0, crown * (Math.PI - angle)];
  const [c, s] = [maths.cos(angle), maths.sin(angle)];
  const reach = maths.pow(maths.pow(Math.abs(c), n) + maths.pow(s, n), -1 / n);
  return [legX * c * reach, 0, crown * s * reach];
}

/** The grip with its legs, going on under the door far enough for its rounded ends to be cut off. */
export function gripTube(s: BowPullSizes, mating: number): Tube {
  const nose = 0.6 * s.legHeight;
  const below = (underDeck + mating + nose) / s.crown;
  const angleAt = (t: number): number => -below + t * (Math.PI + 2 * below);
  return sweepTube({
    spine: (t) => spineAt(s, angleAt(t)),
    across: [0, 1, 0],
    section: (t) => {
      const { height, width } = sectionAt(s, angleAt(t));
      return { across: width / 2, above: height / 2, exponent: 2.15 };
    },
    roundStart: nose,
    roundEnd: nose,
  });
}

/** Thickness and width of the grip: its own in the middle, the leg's at the feet. */
export function sectionAt(
  s: BowPullSizes,
  angle: number,
): { readonly height: number; readonly width: number } {
  const share = Math.min(1, Math.abs(1 - (2 * angle) / Math.PI));
  const blend = share * share * (3 - 2 * share);
  return {
    height: s.gripHeight + blend * (s.legHeight - s.gripHeight),
    width: s.gripWidth + blend * (s.legWidth - s.gripWidth),
  };
}

/** A foot as seen from the front: round about its leg, and out to its screw. */
export function footOutline(s: BowPullSizes, hand: 1 | -1): Outline {
  const r = s.footWidth / 2;
  return s.screwX === s.legX
    ? obroundOutline([hand * s.legX, 0], [hand * s.legX, 0], r)
    : obroundOutline([hand * s.legX, 0], [hand * s.screwX, 0], r);
}

/** Grip and feet with their fillets, going on under the door. */
export function bowField(s: BowPullSizes, mating: number): Field {
  const low = -underDeck - mating;
  const foot = (hand: 1 | -1): Field =>
    plateField({
      outline: footOutline(s, hand),
      z0: low,
      z1: s.footThickness,
      topRadius: s.footEdge,
      bottomRadius: 1,
    });
  return blendFields([tubeField(gripTube(s, mating)), foot(1), foot(-1)], s.fillet);
}

/** Half the clear width between the legs at a height over the door, with so much stock on them, mm. */
export function clearHalf(s: BowPullSizes, height: number, skin = 0): number {
  // The inner side at an angle: off the centre line by half the thickness, square to it (the taper hardly tilts it).
  const inner = (angle: number): readonly [number, number] => {
    const e = 1e-5;
    const [a, b] = [spineAt(s, angle - e), spineAt(s, angle + e)];
    const [dx, dz] = [b[0] - a[0], b[2] - a[2]];
    const half = (sectionAt(s, angle).height / 2 + skin) / maths.hypot(dx, dz);
    const [x, , z] = spineAt(s, angle);
    return [x - half * dz, z + half * dx];
  };
  let [low, high] = [-0.5, Math.PI / 2];
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (inner(middle)[1] < height) low = middle;
    else high = middle;
  }
  return inner((low + high) / 2)[0];
}
