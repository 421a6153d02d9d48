import type { Dimension } from '../../core/part/contract.js';
import { lengthDimension as size } from '../../core/part/dimension.js';
import type { Stock } from '../../core/part/stock.js';
import type { KnobSizes } from './sizes.js';

/** The sizes to check on a knob, as they are in this state. A hole left for the drill has diameter 0. */
export function knobDimensions(
  s: KnobSizes,
  { skin, mating, bore }: Stock,
  hole: number,
): readonly Dimension[] {
  return [
    size('D', 'head diameter', s.head + 2 * skin, 'xy', 'calliper'),
    size('H', 'projection', s.projection + skin + mating, 'z', 'calliper, foot to crown'),
    size('d_s', 'spindle diameter', s.spindle + 2 * skin, 'xy', 'calliper at its thinnest'),
    size('d_f', 'foot diameter', s.foot + 2 * skin, 'xy', 'calliper'),
    size('t_f', 'thickness of the foot', s.footThickness + skin + mating, 'z', 'calliper at its edge'),
    size('d_h', 'hole diameter', hole, 'xy', 'plug gauge or drill shank; 0 where it is left for the drill'),
    size(
      'h_h',
      'depth of the hole',
      hole > 0 ? s.holeDepth - bore + mating : 0,
      'z',
      "depth gauge from the foot's underside",
    ),
  ];
}
