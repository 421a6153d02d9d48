import type { Dimension } from '../../core/part/contract.js';
import { lengthDimension as size } from '../../core/part/dimension.js';
import type { ScrewHolePlan } from '../hardware/screw-holes.js';
import type { PullState } from './levels.js';
import type { ScrewedTab } from './screwed-tab.js';
import { swingRadius } from './swing.js';

/** The sizes to check on a pull, as they are in this state. A hole left for the drill has diameter 0. */
export function pullDimensions(
  state: PullState,
  holeCast: boolean,
  screws: ScrewHolePlan | null,
): readonly Dimension[] {
  const { sizes, plan, skin, mating, leg, lip } = state;
  const oval = sizes.section === 'oval';
  return [
    size(
      'l',
      'overall length',
      state.tabEnd + state.freeEnd + 2 * skin,
      'xy',
      "calliper, tab's end to free end",
    ),
    size('b', 'overall width', 2 * (plan.halfY + plan.outer + skin), 'xy', 'calliper over the rim'),
    size(
      't',
      'thickness',
      sizes.thickness + skin + (oval ? skin : state.under),
      'z',
      oval ? 'calliper, underside of the rim to its crown' : 'micrometer on the flats of the rim',
    ),
    size('w_e', 'eye width', sizes.eyeWidth - 2 * skin, 'xy', 'inside calliper, across the pull'),
    size('l_e', 'eye length', sizes.eyeLength - 2 * skin, 'xy', 'inside calliper, along the pull'),
    size('b_r', 'rim width', sizes.rimWidth + 2 * skin, 'xy', 'calliper, eye to outside'),
    ...(leg === 0
      ? []
      : [size('c', 'bevel leg', leg, 'xy', 'bevel gauge at 45°, or by eye against a template')]),
    size('b_t', 'tab width', sizes.tabWidth + 2 * mating, 'xy', "micrometer over the tab's sides"),
    ...(oval
      ? [
          size(
            't_t',
            'tab thickness',
            sizes.tabThickness + skin + state.under,
            'z',
            "micrometer on the tab's flats",
          ),
          size(
            'r_e',
            "rounding of the tab's edges",
            sizes.edgeRadius + skin,
            'none',
            'radius gauge, show face',
          ),
        ]
      : []),
    ...(sizes.screwed === null ? pinned(state, holeCast) : screwedDown(state, sizes.screwed, screws)),
    size('r_f', 'inside corner radius', sizes.filletRadius - skin, 'xy', 'radius gauge, tab to rim'),
    ...(lip === null
      ? []
      : [
          {
            symbol: 'θ_l',
            name: 'lip angle',
            value: sizes.lipAngle,
            unit: 'rad',
            axis: 'none',
            method: 'protractor on the show face',
          } as const,
          size(
            'l_l',
            'lip length',
            state.freeEnd + skin - lip.crease,
            'xy',
            "calliper, the lip's start to the free end",
          ),
          size(
            't_l',
            "thickness at the free end, lip's plane produced",
            lip.edgeThickness,
            'z',
            'calliper over show face and a straightedge on the lip',
          ),
        ]),
  ];
}

/** Of a tab on a hinge pin. */
const pinned = (state: PullState, holeCast: boolean): readonly Dimension[] => [
  size(
    'd_h',
    'pin hole diameter',
    holeCast ? 2 * state.holeRadius : 0,
    'xy',
    'plug gauge or drill shank; 0 where it is left for the drill',
  ),
  size(
    'a_p',
    'pin axis to eye',
    state.sizes.pinDistance + state.skin,
    'xy',
    'pin in the hole, calliper to the eye, less half the pin',
  ),
  size(
    'e_p',
    "pin axis to tab's end",
    state.sizes.pinToEnd + state.skin,
    'xy',
    "pin in the hole, calliper to the tab's end, less half the pin",
  ),
  size('r_s', 'swing radius of the tab', swingRadius(state), 'xy', 'turn it on its pin in the bracket'),
];

/** Of a tab that is screwed down. */
function screwedDown(
  { sizes, plan, skin }: PullState,
  { at, length }: ScrewedTab,
  holes: ScrewHolePlan | null,
): readonly Dimension[] {
  const pins = 'pins in the holes, calliper over them, less a pin';
  const [[x1, y1], [x2]] = at;
  const eye = -(plan.halfX + plan.inner);
  return [
    size('l_t', "tab length, rim's back to tab's end", length, 'xy', 'overall length less that of the rim'),
    size('a_s', 'between screws', sizes.tab === 'leaf' ? x1 - x2 : 2 * y1, 'xy', pins),
    size('e_s', 'first screw to eye', eye - x1 + skin, 'xy', 'pin in the hole, calliper, less half the pin'),
    size(
      'd_s',
      'screw holes',
      holes?.diameter ?? 0,
      'xy',
      'plug gauge or drill shank; 0 where left for the drill',
    ),
    size(
      'd_c',
      'countersinks',
      holes?.mouthDiameter ?? 0,
      'xy',
      'calliper over the mouth; 0 where left for the drill',
    ),
  ];
}
