import type { Dimension } from '../../core/part/contract.js';
import { lengthDimension as size } from '../../core/part/dimension.js';
import type { Stock } from '../../core/part/stock.js';
import type { ScrewHolePlan } from '../hardware/screw-holes.js';
import { mouthAtFace } from '../hinge/leaf-screws.js';
import type { BorePlan } from '../hinge/pin-bore.js';
import type { RudderSizes } from './sizes.js';
import { outerHalf } from './strap-shape.js';

/** The sizes to check on pintle or gudgeon, as they are in this state. What is left for the drill has diameter 0. */
export function rudderDimensions(
  s: RudderSizes,
  stock: Stock,
  plans: { readonly bore: BorePlan; readonly holes: ScrewHolePlan },
): readonly Dimension[] {
  const { skin, face, mating } = stock;
  const across = s.mount === 'strap' ? outerHalf(s) : s.reach;
  return [
    ...(s.castPin
      ? [
          size('d', 'pin diameter', s.pinDiameter + 2 * mating, 'xy', 'micrometer'),
          size(
            'l_p',
            'pin from shoulder to tip',
            s.pintleLength + mating - face,
            'z',
            'depth gauge on the shoulder',
          ),
        ]
      : [
          size(
            'd_h',
            s.piece === 'gudgeon' ? 'hole for the pintle' : 'hole for the pin',
            plans.bore.diameter,
            'xy',
            'plug gauge or drill shank; 0 where it is left for the drill',
          ),
        ]),
    size('d_b', 'boss diameter', 2 * (s.bossRadius + skin), 'xy', 'calliper across the boss'),
    size('w', 'width along the pin', s.width + skin + face, 'z', 'calliper, face to face'),
    size(
      't',
      s.mount === 'strap' ? 'strap thickness' : 'plate thickness',
      s.thickness + 2 * skin,
      'xy',
      'calliper',
    ),
    size(
      's_o',
      'pin axis to the wood',
      s.standOff + (s.mount === 'strap' ? -skin : skin),
      'xy',
      'calliper from the boss, less half the boss',
    ),
    size(
      'b_o',
      s.mount === 'strap' ? 'width over the straps' : 'length of the plate',
      2 * (across + skin),
      'xy',
      'calliper',
    ),
    ...(s.mount === 'strap'
      ? [
          size('b', 'between the straps', s.wood - 2 * skin, 'xy', 'inside calliper, or the wood itself'),
          size(
            'l',
            "boss to the straps' ends",
            s.bossRadius + s.standOff + s.reach + 2 * skin,
            'xy',
            'calliper over all',
          ),
        ]
      : []),
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
      mouthAtFace({ seat: s.seat }, stock, plans.holes),
      'xy',
      'calliper, or a screw laid in: flush or just under',
    ),
  ];
}
