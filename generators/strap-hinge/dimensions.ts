import type { Dimension } from '../../core/part/contract.js';
import { lengthDimension as size } from '../../core/part/dimension.js';
import type { Stock } from '../../core/part/stock.js';
import type { ScrewHolePlan } from '../hardware/screw-holes.js';
import { grownSection } from '../hinge/knuckle-section.js';
import { mouthAtFace } from '../hinge/leaf-screws.js';
import type { BorePlan } from '../hinge/pin-bore.js';
import { type StrapLeaf, screwsOf } from './body.js';
import type { StrapHingeSizes } from './sizes.js';

/** The sizes to check on strap or plate, as they are in this state. What is left for the drill has diameter 0. */
export function strapDimensions(
  s: StrapHingeSizes,
  leaf: StrapLeaf,
  stock: Stock,
  plans: { readonly bore: BorePlan; readonly holes: ScrewHolePlan },
): readonly Dimension[] {
  const { skin, mating } = stock;
  const section = grownSection(s.strapSection, skin);
  const byPin = 'pin in the bore, calliper to the edge, less half the pin';
  return [
    ...(leaf === 'strap'
      ? [
          size('l_s', 'pin axis to tip', s.length + skin, 'xy', byPin),
          size('b_r', 'width beside the notches', s.rootWidth + 2 * skin, 'xy', 'calliper'),
          size(
            's_t',
            s.hasDisc ? 'diameter of the disc at the tip' : 'diameter of the round tip',
            2 * (s.tipRadius + skin),
            'xy',
            'calliper across the tip',
          ),
        ]
      : [
          size('b_p', "pin axis to the plate's edge", s.plateWidth + skin, 'xy', byPin),
          size('b_r', 'width, over the outer knuckles', s.rootWidth + 2 * skin, 'xy', 'calliper'),
        ]),
    size('t', 'thickness', section.backDrop - section.faceDrop, 'z', 'micrometer'),
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
      s.row.knuckleLength + (leaf === 'plate' ? skin + mating : 2 * mating),
      'xy',
      leaf === 'plate' ? 'calliper, an outer knuckle' : 'calliper over its ends',
    ),
    size(
      'a_n',
      'pin axis to the floor of the notches',
      s.notchFloor - skin,
      'xy',
      'pin in the bore, depth gauge, less half the pin',
    ),
    ...(screwsOf(s, leaf).length === 0
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
            mouthAtFace(s.screw, stock, plans.holes),
            'xy',
            'calliper, or a screw laid in: flush or just under',
          ),
        ]),
  ];
}
