import { maths } from '../../core/maths/maths.js';
import type { BuildKit, Dimension, GatePlace, VentPlace } from '../../core/part/contract.js';
import { lengthDimension as size } from '../../core/part/dimension.js';
import type { DrawingNotes } from '../../core/part/drawing-notes.js';
import type { Stock } from '../../core/part/stock.js';
import {
  type Outline,
  obroundOutline,
  offsetOutline,
  openingCutter,
  plateSolid,
  roundEdge,
} from '../../core/shape/index.js';
import type { Solid, Vec3 } from '../../core/solid/types.js';
import { flatRoom, leastRoom, roomiest } from '../hardware/flat-room.js';
import { drillDimples, type PinHolePlan } from '../hardware/pin-hole.js';
import { type RingPullSizes, ringPlanOutline } from './sizes.js';

/** The ring's opening. */
export const eyeOutline = ({ plan, eyeWidth, eyeLength }: RingPullSizes): Outline => {
  const { halfX, halfY, inner } = plan;
  return eyeWidth >= eyeLength
    ? obroundOutline([0, -halfY], [0, halfY], inner)
    : obroundOutline([-halfX, 0], [halfX, 0], inner);
};

/** Lies on the bed at z = 0, eye about the Z axis, tab towards −X, the pin's hole along Y. */
export function ringSolid(s: RingPullSizes, stock: Stock, hole: PinHolePlan, kit: BuildKit): Solid {
  const { kernel, tolerance } = kit;
  const { thickness, edgeRadius } = s;
  const sides = { side: stock.skin, top: stock.skin, bottom: stock.skin };
  const edge = roundEdge(edgeRadius);
  const body = plateSolid(
    kernel,
    {
      outline: ringPlanOutline(s, stock.mating - stock.skin),
      z0: 0,
      z1: thickness,
      topEdge: edge,
      bottomEdge: edge,
    },
    tolerance,
    sides,
  ).subtract(
    openingCutter(
      kernel,
      { outline: eyeOutline(s), z0: 0, z1: thickness, topRim: edge, bottomRim: edge },
      tolerance,
      sides,
    ),
  );
  const side = s.tabWidth / 2 + stock.mating;
  const middle = thickness / 2;
  if (hole.form === 'hole') {
    const reach = side + 1;
    const bore = kernel
      .frustum([0, 0], -reach, hole.diameter / 2, reach, hole.diameter / 2, tolerance)
      .rotate('x', -Math.PI / 2)
      .translate([-s.pinX, 0, middle]);
    return body.subtract(bore);
  }
  const mouths = [1, -1].map((hand) => ({
    at: [-s.pinX, hand * side, middle] as Vec3,
    outwards: [0, hand, 0] as Vec3,
  }));
  return body.subtract(...drillDimples(mouths, s.holeDiameter, stock.mating, kit));
}

/** Smallest and largest vent, mm. */
const vents = { least: 1.5, most: 6 } as const;

/** Metal enters over the tab; air leaves at the far side of the ring and at both flanks. */
export function ringPlaces(
  s: RingPullSizes,
  stock: Stock,
): { readonly gates: readonly GatePlace[]; readonly vents: readonly VentPlace[] } {
  const z = s.thickness + stock.skin;
  // The edges' rounding keeps its centres: the flat ends where the finished one does.
  const flat = offsetOutline(ringPlanOutline(s, stock.mating - stock.skin), -s.edgeRadius);
  const room = flatRoom(flat, [offsetOutline(eyeOutline(s), s.edgeRadius)]);
  const { plan } = s;
  const gate = roomiest(room, { x: [-(s.pinX + s.pinToEnd), -(plan.halfX + plan.inner)], y: [0, 0] });
  const land = s.rimWidth - 2 * s.edgeRadius - 0.2;
  const middle = plan.inner + s.rimWidth / 2;
  const foot = Math.min(land, vents.most);
  const vent = (name: string, x: number, y: number): VentPlace => ({
    name,
    at: [x, y, z],
    footDiameter: foot,
  });
  return {
    gates:
      gate.radius < leastRoom
        ? []
        : [
            {
              name: 'flat of the tab',
              at: [gate.at[0], 0, z],
              innerDiameter: 0,
              outerDiameter: 2 * gate.radius,
            },
          ],
    vents:
      foot < vents.least
        ? []
        : [
            vent('far side of the ring', plan.halfX + middle, 0),
            vent('ring, left', plan.halfX, plan.halfY + middle),
            vent('ring, right', plan.halfX, -plan.halfY - middle),
          ],
  };
}

export function ringDimensions(s: RingPullSizes, stock: Stock, hole: PinHolePlan): readonly Dimension[] {
  const { skin, mating } = stock;
  const { plan } = s;
  return [
    size('l', 'overall length', s.pinX + s.pinToEnd + plan.halfX + plan.outer + 2 * skin, 'xy', 'calliper'),
    size('b', 'overall width', 2 * (plan.halfY + plan.outer + skin), 'xy', 'calliper over the ring'),
    size('t', 'thickness', s.thickness + 2 * skin, 'z', 'micrometer on the flats of the ring'),
    size('w_e', 'opening across', s.eyeWidth - 2 * skin, 'xy', 'inside calliper across the pull'),
    size('l_e', 'opening along', s.eyeLength - 2 * skin, 'xy', 'inside calliper along the pull'),
    size('b_r', "width of the ring's section", s.rimWidth + 2 * skin, 'xy', 'calliper, opening to outside'),
    size('r_e', 'rounding of the edges', s.edgeRadius + skin, 'none', 'radius gauge', { detail: true }),
    size('b_t', 'tab width', s.tabWidth + 2 * mating, 'xy', "micrometer over the tab's sides"),
    size(
      'd_h',
      'pin hole diameter',
      hole.diameter,
      'xy',
      'plug gauge or drill shank; 0 where it is left for the drill',
    ),
    size(
      'a_p',
      "pin's axis to opening",
      s.pinDistance + skin,
      'xy',
      'pin in the hole, calliper, less half the pin',
    ),
    size(
      'e_p',
      "pin's axis to tab's end",
      s.pinToEnd + skin,
      'xy',
      'pin in the hole, calliper, less half the pin',
    ),
    size('r_f', 'inside corner radius', s.filletRadius - skin, 'xy', 'radius gauge, tab to ring', {
      detail: true,
    }),
  ];
}

export function ringDrawing(s: RingPullSizes): DrawingNotes {
  const { plan, thickness: t, pinX, tabWidth } = s;
  const [eye, out, end] = [plan.halfX + plan.inner, plan.halfX + plan.outer, -(pinX + s.pinToEnd)];
  const [eyeY, outY] = [plan.halfY + plan.inner, plan.halfY + plan.outer];
  const tab = tabWidth / 2;
  const past = 3;
  const r = s.holeDiameter / 2;
  return {
    views: [
      {
        from: '-y',
        cut: 0,
        extra: [
          {
            kind: 'chain',
            points: [
              [-pinX, 0, -past],
              [-pinX, 0, t + past],
            ],
          },
          {
            kind: 'chain',
            points: [
              [0, 0, -past],
              [0, 0, t + past],
            ],
          },
        ],
        dimensions: [
          { of: 't', from: [out - s.edgeRadius, 0, 0], to: [out - s.edgeRadius, 0, t], side: 'right' },
          { of: 'd_h', form: 'Ø{}', at: [-pinX, 0, t / 2], radius: r },
          { of: 'e_p', from: [end, 0, t / 2], to: [-pinX, 0, t / 2], side: 'below' },
          { of: 'a_p', from: [-pinX, 0, t / 2], to: [-eye, 0, t / 2], side: 'below' },
          { of: 'b_r', from: [eye, 0, t / 2], to: [out, 0, t / 2], side: 'below' },
          {
            of: 'r_e',
            form: 'R{}',
            at: [out - 0.293 * s.edgeRadius, 0, t - 0.293 * s.edgeRadius],
            outward: [1, 0, 1],
          },
        ],
      },
      {
        from: '+z',
        extra: [
          {
            kind: 'chain',
            points: [
              [end - past, 0, t],
              [out + past, 0, t],
            ],
          },
          {
            kind: 'chain',
            points: [
              [0, -outY - past, t],
              [0, outY + past, t],
            ],
          },
          {
            kind: 'chain',
            points: [
              [-pinX, -tab - past, t],
              [-pinX, tab + past, t],
            ],
          },
          {
            kind: 'hidden',
            points: [
              [-pinX - r, -tab, t],
              [-pinX - r, tab, t],
            ],
          },
          {
            kind: 'hidden',
            points: [
              [-pinX + r, -tab, t],
              [-pinX + r, tab, t],
            ],
          },
        ],
        dimensions: [
          { of: 'l', from: [end, 0, t], to: [out, 0, t], side: 'below' },
          { of: 'b', from: [0, -outY, t], to: [0, outY, t], side: 'right' },
          { of: 'w_e', from: [0, -eyeY, t], to: [0, eyeY, t], side: 'right' },
          { of: 'l_e', from: [-eye, 0, t], to: [eye, 0, t], side: 'above' },
          { of: 'b_t', from: [end + s.tabCorner, -tab, t], to: [end + s.tabCorner, tab, t], side: 'left' },
          { of: 'r_f', form: 'R{}', at: filletMiddle(s), outward: [-1, -1, 0] },
        ],
      },
    ],
  };
}

function filletMiddle({ plan, filletRadius: f, thickness }: RingPullSizes): Vec3 {
  const at = (Math.PI / 2 + plan.filletEnd) / 2;
  return [f * maths.cos(at) - plan.filletX, f * maths.sin(at) - plan.tabHalf - f, thickness];
}
