import type { Dimension } from '../../core/part/contract.js';
import { lengthDimension as size } from '../../core/part/dimension.js';
import type { Stock } from '../../core/part/stock.js';
import type { ScrewHolePlan } from '../hardware/screw-holes.js';
import { extremes, hornTube } from './body.js';
import type { HornCleatSizes } from './sizes.js';

/** The sizes to check on a cleat, as they are in this state. */
export function cleatDimensions(s: HornCleatSizes, stock: Stock, holes: ScrewHolePlan): readonly Dimension[] {
  const { skin, mating } = stock;
  const screws = s.fasteners === 2 ? 'screws' : 'screws, along the cleat';
  return [
    size('L', 'overall length', s.length + 2 * skin, 'xy', 'calliper or rule over the horn tips'),
    size(
      'H',
      'overall height',
      extremes(hornTube(s)).z + skin + mating,
      'z',
      'height gauge, underside to the tips',
    ),
    size('b_h', 'horn width in the middle', s.hornWidth + 2 * skin, 'xy', 'calliper across the horns'),
    ...(s.base === 'open'
      ? [
          size('h_r', 'horn height in the middle', s.hornHeight + 2 * skin, 'z', 'calliper between the legs'),
          size(
            'h_1',
            'height of the opening',
            s.clearance - 2 * skin,
            'z',
            'inside calliper, middle of the opening',
          ),
          size(
            'w_o',
            'width of the opening',
            s.opening - 2 * skin,
            'xy',
            'inside calliper, between the legs',
          ),
        ]
      : [size('l_l', 'length of the neck', s.legLength + 2 * skin, 'xy', 'calliper, at half height')]),
    size(
      'b_l',
      s.base === 'open' ? 'width of the legs' : 'width of the neck',
      s.legWidth + 2 * skin,
      'xy',
      'calliper across, at half height',
    ),
    size('l_b', 'length of the base', s.baseLength + 2 * skin, 'xy', 'calliper'),
    size('b_b', 'width of the base', s.baseWidth + 2 * skin, 'xy', 'calliper'),
    size('t', 'thickness of the base', s.baseThickness + skin + mating, 'z', 'calliper, at its ends'),
    size(
      'a_1',
      `between ${screws}`,
      2 * s.screwAlong,
      'xy',
      'pins in the holes, calliper over them, less a pin',
    ),
    ...(s.fasteners === 4
      ? [
          size(
            'a_2',
            'between screws, across the cleat',
            2 * s.screwAcross,
            'xy',
            'pins in the holes, calliper over them, less a pin',
          ),
        ]
      : []),
    size('d_h', 'screw holes', holes.diameter, 'xy', 'plug gauge or drill shank; 0 where left for the drill'),
    size('r_f', 'fillets', s.fillet - skin, 'xy', 'radius gauge, leg to base'),
  ];
}
