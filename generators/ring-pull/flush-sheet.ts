import type { Dimension } from '../../core/part/contract.js';
import { lengthDimension as size } from '../../core/part/dimension.js';
import type { DrawingNotes } from '../../core/part/drawing-notes.js';
import type { Stock } from '../../core/part/stock.js';
import type { ScrewHolePlan } from '../hardware/screw-holes.js';
import { grooveWidth } from './flush-plate.js';
import { flushLayout, slotEnd, wellRadius } from './flush-sizes.js';
import type { RingPullSizes } from './sizes.js';

/** The sizes to check on a flush plate, as they are in this state. */
export function flushPlateDimensions(
  s: RingPullSizes,
  stock: Stock,
  plans: { readonly groove: boolean; readonly screws: ScrewHolePlan },
): readonly Dimension[] {
  const at = flushLayout(s);
  const { skin, mating, face } = stock;
  const { x, y } = at.flange;
  const [front, , back] = at.screws;
  return [
    size('l', 'length of the flange', x[1] - x[0] + 2 * skin, 'xy', 'calliper'),
    size('b', 'width of the flange', 2 * (y + skin), 'xy', 'calliper'),
    size('t_p', 'thickness of the flange', s.plateThickness + face + mating, 'z', 'micrometer'),
    size('h', 'overall height', at.top + face + skin, 'z', 'height gauge'),
    size('h_s', 'depth of the seat', at.top - at.seatFloor + face - skin, 'z', 'depth gauge from the face'),
    size('h_w', 'depth of the well', at.top - at.wellFloor + face - skin, 'z', 'depth gauge from the face'),
    size('d_w', 'width of the well', 2 * (wellRadius(s) + s.plan.halfY - skin), 'xy', 'inside calliper'),
    size('w_g', "width of the tab's slot", s.gap - 2 * mating, 'xy', 'gauge block or inside calliper'),
    size(
      'd_g',
      "width of the pin's groove",
      plans.groove ? grooveWidth(s, stock) : 0,
      'xy',
      'plug gauge; 0 where it is left to mill',
    ),
    size('a_g', "groove's middle to front edge", s.pinX + x[1] + skin, 'xy', 'pin in the groove, calliper'),
    size(
      'd_s',
      'screw hole diameter',
      plans.screws.diameter,
      'xy',
      'plug gauge; 0 where it is left for the drill',
    ),
    size('s_y', 'front screws apart', 2 * front![1], 'xy', 'calliper between centres'),
    size('s_r', 'rear screws apart', 2 * back![1], 'xy', 'calliper between centres'),
    size('s_x', 'front to rear screws', front![0] - back![0], 'xy', 'calliper between centres'),
  ];
}

/** A section or elevation and the plan, for the finished part. */
export function flushPlateDrawing(s: RingPullSizes): DrawingNotes {
  const at = flushLayout(s);
  const { x, y } = at.flange;
  const [front, , back] = at.screws;
  const r = s.holeDiameter / 2;
  const top = at.top;
  const well = wellRadius(s);
  return {
    views: [
      {
        from: '-y',
        cut: 0,
        extra: [
          {
            kind: 'chain',
            points: [
              [0, 0, -3],
              [0, 0, top + 3],
            ],
          },
          {
            kind: 'chain',
            points: [
              [-s.pinX, 0, at.cupUnder - 3],
              [-s.pinX, 0, top + 3],
            ],
          },
        ],
        dimensions: [
          { of: 't_p', from: [x[0], 0, at.flangeUnder], to: [x[0], 0, top], side: 'left' },
          { of: 'h', from: [well, 0, 0], to: [x[1], 0, top], side: 'right' },
          { of: 'h_s', from: [-slotEnd(s), 0, at.seatFloor], to: [x[0], 0, top], side: 'left' },
          { of: 'h_w', from: [well - 3, 0, at.wellFloor], to: [x[1], 0, top], side: 'right' },
          {
            of: 'd_g',
            from: [-s.pinX - r, 0, at.cupUnder],
            to: [-s.pinX + r, 0, at.cupUnder],
            side: 'below',
          },
          { of: 'a_g', from: [-s.pinX, 0, at.cupUnder], to: [x[1], 0, at.flangeUnder], side: 'below' },
        ],
      },
      {
        from: '+z',
        extra: [
          {
            kind: 'chain',
            points: [
              [x[0] - 3, 0, top],
              [x[1] + 3, 0, top],
            ],
          },
          {
            kind: 'chain',
            points: [
              [0, -y - 3, top],
              [0, y + 3, top],
            ],
          },
        ],
        dimensions: [
          { of: 'l', from: [x[0], 0, top], to: [x[1], 0, top], side: 'below' },
          { of: 'b', from: [0, -y, top], to: [0, y, top], side: 'right' },
          { of: 's_y', from: [front![0], -front![1], top], to: [front![0], front![1], top], side: 'right' },
          { of: 's_r', from: [back![0], -back![1], top], to: [back![0], back![1], top], side: 'left' },
          { of: 's_x', from: [back![0], y - 2, top], to: [front![0], y - 2, top], side: 'above' },
          {
            of: 'w_g',
            from: [-slotEnd(s) + 2, -s.gap / 2, top],
            to: [-slotEnd(s) + 2, s.gap / 2, top],
            side: 'left',
          },
          { of: 'd_s', form: '4 × Ø{}', at: [front![0], front![1], top], radius: s.seat.holeDiameter / 2 },
          {
            of: 'd_w',
            form: s.plan.halfY > 0 ? 'well {} wide' : 'Ø{}',
            at: [0.7 * well, -0.7 * well - s.plan.halfY, at.seatFloor],
          },
        ],
      },
    ],
  };
}
