import type { Dimension } from '../../core/part/contract.js';
import { lengthDimension as size } from '../../core/part/dimension.js';
import type { Stock } from '../../core/part/stock.js';
import type { ScrewHolePlan } from '../hardware/screw-holes.js';
import { grownSection } from '../hinge/knuckle-section.js';
import { type LeafSide, notchSpans } from '../hinge/knuckles.js';
import { mouthAtFace } from '../hinge/leaf-screws.js';
import type { BorePlan } from '../hinge/pin-bore.js';
import type { ButtHingeSizes } from './sizes.js';

/** The sizes to check on a leaf, as they are in this state. What is left for the drill has diameter 0. */
export function leafDimensions(
  sizes: ButtHingeSizes,
  side: LeafSide,
  stock: Stock,
  plans: { readonly bore: BorePlan; readonly holes: ScrewHolePlan },
): readonly Dimension[] {
  const { skin, mating } = stock;
  const section = grownSection(sizes.section, skin);
  const { knuckleLength } = sizes.row;
  // Knuckles at the leaf's ends have the skin's stock there.
  const notch = notchSpans(sizes.row, side).find(
    ([from, to]) => from > -sizes.length / 2 && to < sizes.length / 2,
  );
  return [
    size('l', 'length along the pin', sizes.length + 2 * skin, 'xy', 'calliper, end to end'),
    size(
      'b_l',
      'pin axis to free edge',
      section.reach,
      'xy',
      'pin in the bore, calliper to the edge, less half the pin',
    ),
    size('t', 'leaf thickness', section.backDrop - section.faceDrop, 'z', 'micrometer on the leaf'),
    size('d_k', 'barrel diameter', 2 * section.barrelRadius, 'xy', 'micrometer over the knuckles'),
    size(
      'h_f',
      'inner face to the top of the barrel',
      section.barrelRadius + section.faceDrop,
      'z',
      'depth gauge from the barrel',
    ),
    size(
      'd_h',
      'bore for the pin',
      plans.bore.diameter,
      'xy',
      'plug gauge or drill shank; 0 where it is left for the drill',
    ),
    size(
      'l_k',
      'length of a knuckle',
      knuckleLength + (side === 'outer' ? skin + mating : 2 * mating),
      'xy',
      side === 'outer' ? 'calliper, an end knuckle' : 'calliper over its ends',
    ),
    ...(notch
      ? [size('w_n', 'width of a notch', notch[1] - notch[0] - 2 * mating, 'xy', 'inside calliper')]
      : []),
    size(
      'a_n',
      'pin axis to the floor of the notches',
      sizes.notchFloor - skin,
      'xy',
      'pin in the bore, depth gauge, less half the pin',
    ),
    ...(sizes.screwsAt.length === 0
      ? []
      : [
          size(
            'd_s',
            'screw holes',
            plans.holes.diameter,
            'xy',
            'drill shank; 0 where they are left for the drill',
          ),
          size(
            'D_s',
            'countersinks at the face',
            mouthAtFace(sizes.screw, stock, plans.holes),
            'xy',
            'calliper, or a screw laid in: flush or just under',
          ),
        ]),
  ];
}
