import {
  boltAllowables,
  type CleatSizes,
  checkLoad,
  cleatMembers,
  ellipseSection,
  type LoadCheck,
  type Section,
  superellipseSection,
} from '../../core/hardware/index.js';
import { maths } from '../../core/maths/maths.js';
import { pullOfLine, strengthAllowables } from '../hardware/load-fields.js';
import { crownExponent } from './body.js';
import type { HornCleatParameters } from './parameters.js';
import { boltedBase, cleatBoltMaterial, type HornCleatSizes } from './sizes.js';

/** What the cleat bears under the pull of its line. */
export function cleatLoad(p: HornCleatParameters, sizes: HornCleatSizes): LoadCheck {
  const force = pullOfLine(p);
  const { screw } = sizes;
  return checkLoad(
    force,
    cleatMembers(
      force,
      cleatSizes(sizes),
      strengthAllowables(p.strengthOf),
      screw,
      boltAllowables(cleatBoltMaterial),
    ),
  );
}

function cleatSizes(sizes: HornCleatSizes): CleatSizes {
  const { hornHeight, hornWidth } = sizes;
  return {
    ...boltedBase(sizes),
    hornSection: superellipseSection(hornWidth, hornHeight, crownExponent(sizes)),
    neckSection: neckSection(sizes),
  };
}

/**
 * The neck bent along the cleat, less its screw holes. Two legs are a frame between base and horns: with half the pull
 * each, they bend in an S and carry a quarter of the pull's moment each at their ends, and push and pull with half of it
 * over their distance (portal frame with stiff beams; from memory): the modulus is that of one bar with the same stress.
 */
export function neckSection(sizes: HornCleatSizes): Section {
  const { base, legLength, legWidth, legAt, fasteners, seat, screwAlong } = sizes;
  const hole = fasteners === 2 ? seat.holeDiameter : 0;
  const whole = roundedSection(legWidth, legLength);
  const holeArea = legWidth * hole;
  const holeInertia = (legWidth * maths.pow(hole, 3)) / 12;
  const shearFactor = 1.5;
  if (base === 'closed') {
    const inertia = positive(whole.inertia - 2 * (holeInertia + holeArea * screwAlong ** 2));
    return {
      area: positive(whole.area - 2 * holeArea),
      inertia,
      modulus: (2 * inertia) / legLength,
      shearFactor,
    };
  }
  const area = positive(whole.area - holeArea);
  const inertia = positive(whole.inertia - holeInertia);
  const modulus = (2 * inertia) / legLength;
  return {
    area: 2 * area,
    inertia: 2 * inertia,
    modulus: 1 / (1 / (4 * modulus) + 1 / (4 * legAt * area)),
    shearFactor,
  };
}

/**
 * A leg's rounded section, taken as two half circles with a rectangle between (Roark, table A.1, from memory): bent
 * along `length`. A leg wider than long counts as an ellipse.
 */
function roundedSection(width: number, length: number): { readonly area: number; readonly inertia: number } {
  if (length < width) return ellipseSection(width, length);
  const [r, straight] = [width / 2, length - width];
  const half = (Math.PI / 2) * r ** 2;
  const own = (Math.PI / 8 - 8 / (9 * Math.PI)) * maths.pow(r, 4);
  const centre = straight / 2 + (4 * r) / (3 * Math.PI);
  return {
    area: width * straight + 2 * half,
    inertia: (width * maths.pow(straight, 3)) / 12 + 2 * (own + half * centre ** 2),
  };
}

/** A section with no metal left bears nothing: the stress is then as good as infinite. */
const positive = (value: number): number => Math.max(value, 1e-6);
