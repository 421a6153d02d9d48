import { maths } from '../../core/maths/maths.js';
import {
  blendFields,
  type Field,
  type Outline,
  plateField,
  sweepTube,
  type Tube,
  tubeField,
} from '../../core/shape/index.js';
import { underDeck } from '../hardware/deck-body.js';
import { flangeOutline } from '../hardware/flange.js';
import { greatest } from '../hardware/greatest.js';
import type { FairleadSizes } from './sizes.js';

export const fairleadOutline = ({ flange, foot, fillet }: FairleadSizes): Outline =>
  flangeOutline(flange, foot, fillet);

/** Thickness at the tips of an open chock, of its own. */
const tipShare = 0.78;
/** Over less of the lip's half than this the tips are tapered the less. */
const taperLength = 0.25;

/** Thickness of an open lip along it, t from tip to tip, of its own: whole up to the sides, where it is measured. */
function shareAt(t: number, from: number): number {
  const side = Math.PI / (2 * (Math.PI - from));
  const taper = (1 - tipShare) * Math.min(1, (1 - side) / taperLength);
  return 1 - taper * maths.pow(Math.max(0, (Math.abs(2 * t - 1) - side) / (1 - side)), 3);
}

/** The lip: an elliptical bar round the opening, or from tip to tip round an open one. Angles count from the top. */
export function lipTube(s: FairleadSizes): Tube {
  const { halfWidth: w, halfHeight: h, centre, thickness, depth } = s;
  if (s.open) return openLip(s, openFrom(s));
  return sweepTube({
    spine: (t) => [w * maths.sin(2 * Math.PI * t), 0, centre + h * maths.cos(2 * Math.PI * t)],
    across: [0, 1, 0],
    section: () => ({ across: depth / 2, above: thickness / 2 }),
    closed: true,
  });
}

/** An open lip whose middle begins at an angle from the top, and ends as far from it. */
function openLip(
  { halfWidth: w, halfHeight: h, centre, thickness, depth }: FairleadSizes,
  from: number,
): Tube {
  const nose = 0.45 * thickness;
  return sweepTube({
    spine: (t) => {
      const angle = from + (2 * Math.PI - 2 * from) * t;
      return [w * maths.sin(angle), 0, centre + h * maths.cos(angle)];
    },
    across: [0, 1, 0],
    section: (t) => {
      const share = shareAt(t, from);
      return { across: (depth / 2) * share, above: (thickness / 2) * share };
    },
    roundStart: nose,
    roundEnd: nose,
  });
}

/** The angle that an open lip begins at, so that its tips, wherever they are nearest, leave the gap. */
function openFrom(s: FairleadSizes): number {
  let reach = s.gap / 2;
  for (let i = 0; i < 4; i++) reach += s.gap / 2 - nearest(openLip(s, startAt(reach, s.halfWidth)));
  return startAt(reach, s.halfWidth);
}

const startAt = (reach: number, halfWidth: number): number =>
  maths.asin(Math.min(0.97, Math.max(0.02, reach / halfWidth)));

/** Distance of an open lip's tip from the middle. */
const nearest = (tube: Tube): number =>
  -Math.max(
    greatest((u) => -tube.at(u, 0.25)[0], 0, 0.12),
    greatest((u) => -tube.at(u, 0.75)[0], 0, 0.12),
  );

/** Highest point of the lip. */
export function lipTop(s: FairleadSizes): number {
  if (!s.open) return s.centre + s.halfHeight + s.thickness / 2;
  const tube = lipTube(s);
  return Math.max(
    greatest((u) => tube.at(u, 0.25)[2], 0, 0.3),
    greatest((u) => tube.at(u, 0.75)[2], 0, 0.3),
  );
}

/** The lip on its base, with fillets, the base going on under the deck. */
export function fairleadField(s: FairleadSizes, mating: number): Field {
  const { flange, fillet } = s;
  // Under the deck a thick lip may come out of a thin base again: that is cut off, and must not crease.
  const lipFoot = s.centre - s.halfHeight - s.thickness / 2;
  const base = plateField({
    outline: fairleadOutline(s),
    z0: Math.min(-underDeck - mating, lipFoot - 2 * fillet - flange.edgeRadius),
    z1: flange.thickness,
    topRadius: flange.edgeRadius,
    bottomRadius: flange.edgeRadius,
  });
  const body = blendFields([tubeField(lipTube(s)), base], fillet);
  // What the first mesh must not miss.
  const thin = Math.min(tipShare * Math.min(s.thickness, s.depth), flange.thickness, 2 * fillet);
  return { ...body, detail: Math.min(body.detail, 0.5 * thin) };
}
