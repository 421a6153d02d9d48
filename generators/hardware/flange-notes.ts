import type { Dimension } from '../../core/part/contract.js';
import { lengthDimension as size } from '../../core/part/dimension.js';
import type { ViewNote } from '../../core/part/drawing-notes.js';
import type { Stock } from '../../core/part/stock.js';
import type { Vec3 } from '../../core/solid/types.js';
import { poured } from './deck-body.js';
import { type Flange, flangeScrews } from './flange.js';
import { seatOf } from './screw-field.js';

const betweenPins = 'pins in the holes, calliper over them, less a pin';

/** The sizes to check on a base plate with screws, as they are in this state; `hole` is 0 where it is drilled later. */
export function flangeDimensions(
  flange: Flange,
  { skin, mating }: Pick<Stock, 'skin' | 'mating'>,
  hole: number,
): readonly Dimension[] {
  return [
    size('l_b', 'length of the base', flange.length + 2 * skin, 'xy', 'calliper'),
    size('b_b', 'width of the base', flange.width + 2 * skin, 'xy', 'calliper'),
    size('t', 'thickness of the base', flange.thickness + skin + mating, 'z', 'calliper, at its ends'),
    size('a_1', 'between screws, along', 2 * flange.along, 'xy', betweenPins),
    ...(flange.screws === 4
      ? [size('a_2', 'between screws, across', 2 * flange.across, 'xy', betweenPins)]
      : []),
    size('d_h', 'screw holes', hole, 'xy', 'plug gauge or drill shank; 0 where left for the drill'),
  ];
}

/** The base seen from the side of the deck, with its screws. */
export function flangeView(flange: Flange): ViewNote {
  const t = flange.thickness;
  const screws = flangeScrews(flange);
  const [x, y] = screws[0]!;
  const seat = seatOf(flange.screw);
  const reach = seat.mouthDiameter / 2 + 1;
  const between = (of: string, from: Vec3, to: Vec3, side: 'below' | 'right') => ({
    of,
    from: poured(from),
    to: poured(to),
    side,
  });
  return {
    from: '-z',
    extra: screws.map(([sx, sy]) => ({
      kind: 'chain' as const,
      points: [poured([sx, sy - reach, t]), poured([sx, sy + reach, t])],
    })),
    dimensions: [
      between('a_1', [-x, y, t], [x, y, t], 'below'),
      ...(flange.screws === 4 ? [between('a_2', [x, -y, t], [x, y, t], 'right')] : []),
      { of: 'd_h', form: `${flange.screws} × Ø{}`, at: poured([x, y, t]), radius: seat.holeDiameter / 2 },
    ],
  };
}
