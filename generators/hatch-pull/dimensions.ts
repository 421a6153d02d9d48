import type { Dimension, DimensionAxis } from '../../core/part/contract.js';
import type { PullState } from './levels.js';

/** The sizes to check on a pull, as they are in this state. A hole left for the drill has diameter 0. */
export function pullDimensions(state: PullState, holeCast: boolean): readonly Dimension[] {
  const { sizes, plan, skin, mating, leg, lip } = state;
  const size = (
    symbol: string,
    name: string,
    value: number,
    axis: DimensionAxis,
    method: string,
    unit: Dimension['unit'] = 'mm',
  ): Dimension => ({ symbol, name, value, unit, axis, method });
  // A bevel between the tab's end and its faces: its leg on the face, and the corner it leaves.
  const endReach = sizes.pinToEnd + skin;
  const halfThickness = sizes.thickness / 2 + skin;
  return [
    size(
      'l',
      'overall length',
      state.tabEnd + state.freeEnd + 2 * skin,
      'xy',
      "calliper, tab's end to free end",
    ),
    size('b', 'overall width', 2 * (plan.halfY + plan.outer + skin), 'xy', 'calliper over the rim'),
    size('t', 'thickness', 2 * halfThickness, 'z', 'micrometer on the flats of the rim'),
    size('w_e', 'eye width', sizes.eyeWidth - 2 * skin, 'xy', 'inside calliper, across the pull'),
    size('l_e', 'eye length', sizes.eyeLength - 2 * skin, 'xy', 'inside calliper, along the pull'),
    size('b_r', 'rim width', sizes.rimWidth + 2 * skin, 'xy', 'calliper, eye to outside'),
    ...(leg === 0
      ? []
      : [size('c', 'bevel leg', leg, 'xy', 'bevel gauge at 45°, or by eye against a template')]),
    size('b_t', 'tab width', sizes.tabWidth + 2 * mating, 'xy', "micrometer over the tab's sides"),
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
      sizes.pinDistance + skin,
      'xy',
      'pin in the hole, calliper to the eye, less half the pin',
    ),
    size(
      'e_p',
      "pin axis to tab's end",
      endReach,
      'xy',
      "pin in the hole, calliper to the tab's end, less half the pin",
    ),
    size(
      'r_s',
      'swing radius of the tab',
      leg === 0
        ? Math.hypot(endReach, halfThickness)
        : Math.max(Math.hypot(endReach, halfThickness - leg), Math.hypot(endReach - leg, halfThickness)),
      'xy',
      'turn it on its pin in the bracket',
    ),
    size('r_f', 'inside corner radius', sizes.filletRadius - skin, 'xy', 'radius gauge, tab to rim'),
    ...(lip === null
      ? []
      : [
          size('θ_l', 'lip angle', sizes.lipAngle, 'none', 'protractor on the show face', 'rad'),
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
