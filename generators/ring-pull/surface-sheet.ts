import type { Dimension } from '../../core/part/contract.js';
import { lengthDimension as size } from '../../core/part/dimension.js';
import type { DrawingNotes } from '../../core/part/drawing-notes.js';
import type { Stock } from '../../core/part/stock.js';
import { baseLayout, type RingPullSizes } from './sizes.js';
import { eyeTop, type PlatePlans, pinHeight } from './surface-plate.js';

/** The sizes to check on a surface plate, as they are in this state. */
export function surfacePlateDimensions(
  s: RingPullSizes,
  count: '2' | '4',
  stock: Stock,
  { pinHole, screws }: PlatePlans,
): readonly Dimension[] {
  const base = baseLayout(s, count);
  const { skin, mating } = stock;
  const [x, y] = base.screws[0]!;
  return [
    size('l', 'base across the eyes', 2 * (y + base.land + skin), 'xy', 'calliper'),
    size('b', 'base along the pull', 2 * (base.half + skin), 'xy', 'calliper'),
    size('t_p', 'thickness of the base', s.plateThickness + skin + mating, 'z', 'micrometer at the rim'),
    size('h', 'overall height', eyeTop(s) + skin + mating, 'z', 'height gauge on the underside'),
    size(
      'h_p',
      "pin's axis over the underside",
      pinHeight(s) + mating,
      'z',
      'pin in the holes, height gauge, less half the pin',
    ),
    size('w_g', 'gap between the eyes', s.gap - 2 * mating, 'xy', 'gauge block or inside calliper'),
    size('e', 'thickness of an eye', s.eyeThickness + skin + mating, 'xy', 'micrometer'),
    size('b_e', 'width of an eye', 2 * (s.eyeRadius + skin), 'xy', 'calliper'),
    size(
      'd_h',
      'pin hole diameter',
      pinHole.diameter,
      'xy',
      'plug gauge or drill shank; 0 where it is left for the drill',
    ),
    size('d_s', 'screw hole diameter', screws.diameter, 'xy', 'plug gauge; 0 where it is left for the drill'),
    size('s_y', 'screws apart across the pull', 2 * y, 'xy', 'calliper between centres'),
    ...(x > 0 ? [size('s_x', 'screws apart along the pull', 2 * x, 'xy', 'calliper between centres')] : []),
  ];
}

/** A section or elevation and the plan, for the finished part. */
export function surfacePlateDrawing(s: RingPullSizes, count: '2' | '4'): DrawingNotes {
  const base = baseLayout(s, count);
  const [h, top, t] = [pinHeight(s), eyeTop(s), s.plateThickness];
  const [sx, sy] = base.screws[0]!;
  const out = sy + base.land;
  const r = s.holeDiameter / 2;
  const past = 3;
  return {
    views: [
      {
        from: '+x',
        extra: [
          {
            kind: 'chain',
            points: [
              [0, 0, -past],
              [0, 0, top + past],
            ],
          },
          ...[r, -r].map((dz) => ({
            kind: 'hidden' as const,
            points: [
              [0, -base.eyeOutside, h + dz],
              [0, base.eyeOutside, h + dz],
            ] as const,
          })),
          {
            kind: 'chain',
            points: [
              [0, -base.eyeOutside - past, h],
              [0, base.eyeOutside + past, h],
            ],
          },
        ],
        dimensions: [
          { of: 't_p', from: [0, -out, 0], to: [0, -out, t], side: 'left' },
          { of: 'h_p', from: [0, out, 0], to: [0, base.eyeOutside, h], side: 'right' },
          { of: 'h', from: [0, out, 0], to: [0, base.eyeOutside - 1, top], side: 'right' },
          {
            of: 'w_g',
            from: [0, -s.gap / 2, top - s.eyeRadius],
            to: [0, s.gap / 2, top - s.eyeRadius],
            side: 'above',
          },
          {
            of: 'e',
            from: [0, s.gap / 2, top - s.eyeRadius],
            to: [0, base.eyeOutside, top - s.eyeRadius],
            side: 'above',
          },
          { of: 'l', from: [0, -out, 0], to: [0, out, 0], side: 'below' },
        ],
      },
      {
        from: '+z',
        up: '+x',
        extra: [
          {
            kind: 'chain',
            points: [
              [0, -out - past, t],
              [0, out + past, t],
            ],
          },
          {
            kind: 'chain',
            points: [
              [-base.half - past, 0, t],
              [base.half + past, 0, t],
            ],
          },
        ],
        dimensions: [
          { of: 'b', from: [-base.half, 0, t], to: [base.half, 0, t], side: 'right' },
          { of: 's_y', from: [sx, -sy, t], to: [sx, sy, t], side: 'above' },
          ...(sx > 0
            ? [{ of: 's_x', from: [-sx, sy, t] as const, to: [sx, sy, t] as const, side: 'right' as const }]
            : []),
          { of: 'd_s', form: `${count} × Ø{}`, at: [sx, sy, t], radius: s.seat.holeDiameter / 2 },
        ],
      },
      {
        from: '-y',
        dimensions: [
          { of: 'd_h', form: 'Ø{}', at: [0, -base.eyeOutside, h], radius: r },
          { of: 'b_e', from: [-s.eyeRadius, 0, h], to: [s.eyeRadius, 0, h], side: 'above' },
        ],
      },
    ],
  };
}
