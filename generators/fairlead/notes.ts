import type { Dimension } from '../../core/part/contract.js';
import { lengthDimension as size } from '../../core/part/dimension.js';
import type { DimensionNote, DrawingNotes } from '../../core/part/drawing-notes.js';
import type { Stock } from '../../core/part/stock.js';
import type { Vec3 } from '../../core/solid/types.js';
import { poured } from '../hardware/deck-body.js';
import { flangeDimensions, flangeView } from '../hardware/flange-notes.js';
import { lipTop } from './body.js';
import type { FairleadSizes } from './sizes.js';

/** The sizes to check on a fairlead, as they are in this state. */
export function fairleadDimensions(
  s: FairleadSizes,
  { skin, mating }: Stock,
  hole: number,
): readonly Dimension[] {
  return [
    size('H', 'overall height', lipTop(s) + skin + mating, 'z', 'height gauge, underside to the top'),
    size('w_o', 'width of the opening', s.openingWidth - 2 * skin, 'xy', 'inside calliper, along the base'),
    s.open
      ? size('g', 'gap on top', s.gap - 2 * skin, 'xy', 'inside calliper between the tips')
      : size('h_o', 'height of the opening', s.openingHeight - 2 * skin, 'z', 'inside calliper'),
    size('b_l', 'thickness of the lip', s.thickness + 2 * skin, 'xy', 'calliper at its side'),
    size('c_l', 'depth of the lip', s.depth + 2 * skin, 'xy', 'calliper at its side, along the line'),
    ...flangeDimensions(s.flange, { skin, mating }, hole),
    size('r_f', 'fillet', s.fillet - skin, 'xy', 'radius gauge, lip to base'),
  ];
}

/** From the side as the line sees it, from above and from the end, standing on deck. */
export function fairleadDrawing(s: FairleadSizes): DrawingNotes {
  const { flange, centre, halfWidth } = s;
  const top = lipTop(s);
  const [half, wide, t] = [flange.length / 2, flange.width / 2, flange.thickness];
  const inside = halfWidth - s.thickness / 2;
  const outside = halfWidth + s.thickness / 2;
  const length = (
    of: string,
    from: Vec3,
    to: Vec3,
    at: 'above' | 'below' | 'left' | 'right',
  ): DimensionNote => ({ of, from: poured(from), to: poured(to), side: at });
  const chain = (...points: Vec3[]) => ({ kind: 'chain' as const, points: points.map(poured) });
  return {
    views: [
      {
        from: '-y',
        up: '-z',
        extra: [chain([0, 0, -3], [0, 0, top + 3])],
        dimensions: [
          length('H', [half, 0, 0], [0, 0, top], 'right'),
          length('t', [-half, 0, 0], [-half, 0, t], 'left'),
          length('l_b', [-half, 0, 0], [half, 0, 0], 'below'),
          length('w_o', [-inside, 0, centre], [inside, 0, centre], 'above'),
          length('b_l', [inside, 0, centre], [outside, 0, centre], 'above'),
          s.open
            ? length(
                'g',
                [-s.gap / 2, 0, top - s.thickness / 2],
                [s.gap / 2, 0, top - s.thickness / 2],
                'above',
              )
            : length(
                'h_o',
                [0, 0, centre - s.openingHeight / 2],
                [0, 0, centre + s.openingHeight / 2],
                'left',
              ),
        ],
      },
      flangeView(flange),
      {
        from: '+x',
        dimensions: [
          length('b_b', [0, -wide, 0], [0, wide, 0], 'below'),
          length('c_l', [0, -s.depth / 2, centre], [0, s.depth / 2, centre], 'above'),
        ],
      },
    ],
  };
}
