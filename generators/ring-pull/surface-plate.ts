import type { BuildKit, GatePlace, VentPlace } from '../../core/part/contract.js';
import type { Stock } from '../../core/part/stock.js';
import {
  blendFields,
  type Field,
  fieldSolid,
  type Outline,
  offsetOutline,
  placeOutline,
  plateField,
  rectangleOutline,
  turnField,
} from '../../core/shape/index.js';
import type { Solid, Vec3 } from '../../core/solid/types.js';
import { leafOutline } from '../hardware/base-outline.js';
import { type Circle, flatRoom, leastRoom, roomiest } from '../hardware/flat-room.js';
import { drillDimples, type PinHolePlan } from '../hardware/pin-hole.js';
import { type ScrewHolePlan, screwHoleTools } from '../hardware/screw-holes.js';
import { type BaseLayout, baseLayout, type RingPullSizes, swingClearance } from './sizes.js';

/** How far the body goes on under the deck before it is cut off, mm. */
const under = 3;
/** Flat on top of an eye, for its vent, mm. */
const eyeFlat = 1.8;

/** Rounding of the eyes' edges, mm. */
const eyeEdge = ({ eyeThickness, eyeRadius }: RingPullSizes): number =>
  Math.min(0.2 * eyeThickness, 0.2 * eyeRadius);

/** Height of the pin's axis over the deck. */
export const pinHeight = (s: RingPullSizes): number =>
  s.plateThickness + Math.max(s.swing, s.eyeRadius - 0.5) + swingClearance;

/** Height of the eyes over the deck. */
export const eyeTop = (s: RingPullSizes): number => pinHeight(s) + s.eyeRadius;

/** The base: a leaf across the pull, or for four screws a square with round corners. */
export function baseOutline(base: BaseLayout): Outline {
  const [x, y] = base.screws[0]!;
  return base.screws.length === 2
    ? placeOutline(leafOutline(y, base.land, base.half), Math.PI / 2, [0, 0])
    : rectangleOutline([0, 0], 2 * (x + base.land), 2 * (y + base.land), base.land);
}

/** Base and eyes with their fillets, going on under the deck; `step` is the mating stock over the skin's. */
export function plateBody(s: RingPullSizes, base: BaseLayout, step: number, low: number): Field {
  const edge = eyeEdge(s);
  const top = eyeTop(s);
  const corner = s.eyeRadius - eyeFlat / 2;
  const outline = rectangleOutline([0, (top + low + 1) / 2], 2 * s.eyeRadius, top - low - 1, corner);
  // Drawn in [x, z] and turned up; the eye's thickness then lies along −Y.
  const eye = (from: number, to: number): Field =>
    turnField(
      plateField({ outline, z0: -to, z1: -from, topRadius: edge, bottomRadius: edge }),
      'x',
      Math.PI / 2,
    );
  const inside = s.gap / 2 - step;
  return blendFields(
    [
      plateField({
        outline: baseOutline(base),
        z0: low,
        z1: s.plateThickness,
        topRadius: base.edge,
        bottomRadius: 1,
      }),
      eye(inside, base.eyeOutside),
      eye(-base.eyeOutside, -inside),
    ],
    s.rootFillet,
  );
}

export interface PlatePlans {
  readonly pinHole: PinHolePlan;
  readonly screws: ScrewHolePlan;
}

/** The surface plate: underside at z = 0, eyes up, the pin's axis along Y over the middle. */
export function surfacePlateSolid(
  s: RingPullSizes,
  count: '2' | '4',
  stock: Stock,
  plans: PlatePlans,
  kit: BuildKit,
): Solid {
  const { kernel, tolerance } = kit;
  const base = baseLayout(s, count);
  const field = plateBody(s, base, stock.mating - stock.skin, -under - stock.mating);
  const { min, max } = field.bounds;
  // The first grid must see the eyes, the smallest thing there is.
  const cell = 0.45 * Math.min(s.eyeRadius, s.eyeThickness / 2, s.plateThickness / 2 + 1.5);
  const body = fieldSolid(kernel, field, tolerance, stock.skin, cell).subtract(
    kernel.box([min[0] - 5, min[1] - 5, min[2] - 5], [max[0] + 5, max[1] + 5, -stock.mating]),
  );
  const screws = screwHoleTools(
    { seat: s.seat, at: base.screws, mouth: s.plateThickness, sink: 0, clear: s.rootFillet },
    plans.screws,
    { bore: stock.bore, top: stock.skin, under: stock.mating },
    kit,
  );
  return body.subtract(...screws, ...eyeHoles(s, base, stock, plans.pinHole, kit));
}

function eyeHoles(
  s: RingPullSizes,
  base: BaseLayout,
  stock: Stock,
  plan: PinHolePlan,
  kit: BuildKit,
): readonly Solid[] {
  const z = pinHeight(s);
  const out = base.eyeOutside + stock.skin;
  if (plan.form === 'hole') {
    const r = plan.diameter / 2;
    return [
      kit.kernel
        .frustum([0, 0], -out - 1, r, out + 1, r, kit.tolerance)
        .rotate('x', -Math.PI / 2)
        .translate([0, 0, z]),
    ];
  }
  const mouths = [1, -1].map((hand) => ({
    at: [0, hand * out, z] as Vec3,
    outwards: [0, hand, 0] as Vec3,
  }));
  return drillDimples(mouths, s.holeDiameter, stock.skin, kit);
}

/** Metal enters in front of the eyes on the base (or behind); air leaves over the eyes. */
export function surfacePlatePlaces(
  s: RingPullSizes,
  count: '2' | '4',
  stock: Stock,
  screws: ScrewHolePlan,
): { readonly gates: readonly GatePlace[]; readonly vents: readonly VentPlace[] } {
  const base = baseLayout(s, count);
  const inside = s.gap / 2 - (stock.mating - stock.skin);
  const f = s.rootFillet;
  const root = rectangleOutline([0, 0], 2 * (s.eyeRadius + f), 2 * (base.eyeOutside + f), f);
  const mouths: readonly Circle[] = base.screws.map((at) => ({
    at,
    radius: Math.max(screws.mouthDiameter, screws.diameter) / 2 + stock.skin,
  }));
  const room = flatRoom(offsetOutline(baseOutline(base), -base.edge), [root], mouths);
  const gate = roomiest(room, { x: [s.eyeRadius + f, base.half], y: [0, 0] });
  const z = s.plateThickness + stock.skin;
  const place = (name: string, x: number): GatePlace => ({
    name,
    at: [x, 0, z],
    innerDiameter: 0,
    outerDiameter: 2 * gate.radius,
  });
  const foot = Math.min(eyeFlat, base.eyeOutside - inside - 2 * eyeEdge(s)) - 0.1;
  const y = (inside + base.eyeOutside) / 2;
  const top = eyeTop(s) + stock.skin;
  return {
    gates:
      gate.radius < leastRoom
        ? []
        : [place('base, in front of the eyes', gate.at[0]), place('base, behind the eyes', -gate.at[0])],
    vents: [
      { name: 'top of one eye', at: [0, y, top], footDiameter: foot },
      { name: 'top of the other eye', at: [0, -y, top], footDiameter: foot },
    ],
  };
}
