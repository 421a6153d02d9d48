import type { Dimension } from '../../core/part/contract.js';
import { lengthDimension as size } from '../../core/part/dimension.js';
import type { DimensionNote, DrawingNotes } from '../../core/part/drawing-notes.js';
import type { Stock } from '../../core/part/stock.js';
import type { Vec3 } from '../../core/solid/types.js';
import { poured } from '../hardware/deck-body.js';
import { clearHalf } from './body.js';
import type { BowPullSizes } from './sizes.js';

/** Height at which the clear width is measured: half way to the grip, clear of the fillets. */
export const clearHeight = (s: BowPullSizes): number =>
  Math.max(s.footThickness + 1.7 * s.fillet, s.depth / 2);

const overall = (s: BowPullSizes): number => 2 * s.screwX + s.footWidth;

/** The sizes to check on a bow pull, as they are in this state. @param hole as cast, mm; 0 where it is left for the drill */
export function bowDimensions(s: BowPullSizes, { skin, mating }: Stock, hole: number): readonly Dimension[] {
  const screws = s.fixing === 'screws';
  return [
    size('L', 'overall length', overall(s) + 2 * skin, 'xy', 'calliper over the feet'),
    size(
      'H',
      'overall height',
      s.crown + s.gripHeight / 2 + skin + mating,
      'z',
      'height gauge, feet on the plate',
    ),
    size('h_c', 'clear depth', s.depth - skin + mating, 'z', 'gauge blocks under the middle of the grip'),
    size('w_c', 'clear width, half way up', 2 * clearHalf(s, clearHeight(s), skin), 'xy', 'inside calliper'),
    size('h_g', 'thickness of the grip', s.gripHeight + 2 * skin, 'z', 'calliper in the middle'),
    size('b_g', 'width of the grip', s.gripWidth + 2 * skin, 'xy', 'calliper in the middle'),
    size('t_f', 'thickness of the feet', s.footThickness + skin + mating, 'z', 'calliper at the edge'),
    size('b_f', 'width of the feet', s.footWidth + 2 * skin, 'xy', 'calliper'),
    size('a', screws ? 'screws apart' : 'studs apart', 2 * s.screwX, 'xy', 'calliper between centres'),
    size(
      'd_h',
      screws ? 'screw hole diameter' : 'hole to be tapped',
      hole,
      'xy',
      'plug gauge; 0 where it is left for the drill',
    ),
  ];
}

/** From the side and from the front as it stands on the door. Points are given door down, and turned over. */
export function bowDrawing(s: BowPullSizes): DrawingNotes {
  const end = overall(s) / 2;
  const top = s.crown + s.gripHeight / 2;
  const past = 0.03 * overall(s);
  const length = (
    of: string,
    from: Vec3,
    to: Vec3,
    side: 'above' | 'below' | 'left' | 'right',
    form?: string,
  ): DimensionNote => ({ of, from: poured(from), to: poured(to), side, ...(form ? { form } : {}) });
  const chain = (...points: Vec3[]) => ({ kind: 'chain' as const, points: points.map(poured) });
  const clear = clearHalf(s, clearHeight(s));
  const screws = s.fixing === 'screws';
  const hole = screws ? s.seat.holeDiameter : s.screw.tapDrill;
  return {
    views: [
      {
        from: '-y',
        up: '-z',
        extra: [
          chain([0, 0, -past], [0, 0, top + past]),
          ...[1, -1].map((hand) =>
            chain(
              [hand * s.screwX, 0, -past],
              [hand * s.screwX, 0, screws ? s.footThickness + past : s.tapDepth + past],
            ),
          ),
        ],
        dimensions: [
          length('L', [-end, 0, 0], [end, 0, 0], 'below'),
          length('a', [-s.screwX, 0, 0], [s.screwX, 0, 0], 'below'),
          length('H', [end, 0, 0], [0, 0, top], 'right'),
          length('t_f', [-end, 0, 0], [-end, 0, s.footThickness], 'left'),
          length('h_c', [clear, 0, 0], [0, 0, s.depth], 'left'),
          length('w_c', [-clear, 0, clearHeight(s)], [clear, 0, clearHeight(s)], 'above'),
          length('h_g', [0, 0, s.depth], [0, 0, top], 'right'),
        ],
      },
      {
        from: screws ? '-z' : '+z',
        extra: [chain([-end - past, 0, 0], [end + past, 0, 0])],
        dimensions: [
          length('b_f', [s.screwX, -s.footWidth / 2, 0], [s.screwX, s.footWidth / 2, 0], 'right'),
          length('b_g', [0, -s.gripWidth / 2, s.crown], [0, s.gripWidth / 2, s.crown], 'left'),
          {
            of: 'd_h',
            form: '2 × Ø{}',
            at: poured([s.screwX, 0, screws ? s.footThickness : 0]),
            radius: hole / 2,
          },
        ],
      },
    ],
  };
}
