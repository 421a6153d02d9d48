import {
  type Allowables,
  archLoad,
  bendingStress,
  cantilever,
  combinedStress,
  curvedBarFactors,
  lugStresses,
  type MemberCheck,
  rectangleSection,
  roundSection,
  shearStress,
  stressCheck,
} from '../../core/hardware/index.js';
import { maths } from '../../core/maths/maths.js';

/** The eye of a deck eye, mm; z counts up from the deck. */
export type EyeSizes =
  | { readonly kind: 'ring'; readonly opening: number; readonly bar: number; readonly centre: number }
  | {
      readonly kind: 'lug';
      readonly pin: number;
      readonly hole: number;
      readonly thickness: number;
      readonly radius: number;
      readonly centre: number;
      /** Rounding of its edges. */
      readonly edge: number;
    };

/**
 * The eye under a pull in its own plane. A ring is a half ring on legs built into the base, pulled up at its crown; or
 * pulled along the deck, when its legs are a portal frame: a quarter of the moment at their ends, and the couple over
 * their distance (from memory). A lug by net section, shear-out and bearing, and at its root as a cantilever.
 * @param base thickness of the base, mm
 */
export function eyeMembers(
  force: number,
  eye: EyeSizes,
  base: number,
  casting: Allowables,
): readonly MemberCheck[] {
  if (eye.kind === 'ring') {
    const { bar, opening, centre } = eye;
    const section = roundSection(bar);
    const radius = (opening + bar) / 2;
    const height = centre + opening / 2 - base;
    const arch = archLoad(force, radius, centre - base);
    // Of a bar so curved the inside bears more than a straight one.
    const { inside, outside } = curvedBarFactors('ellipse', bar, radius);
    const curved = Math.max(inside, outside);
    const under = (curved * arch.crown) / section.modulus + arch.thrust / section.area;
    const sides =
      (curved * Math.max(arch.flank, arch.foot)) / section.modulus +
      maths.hypot(arch.thrust, force / 2) / section.area;
    const bent =
      bendingStress({ moment: (force * height) / 4 }, section) +
      (force * height) / 2 / (2 * radius) / section.area;
    return [
      stressCheck('ring', 'bending under the pull', under, casting),
      stressCheck('ring', 'bending and tension at its sides', sides, casting),
      stressCheck(
        'ring',
        'bending at the base',
        combinedStress(bent, shearStress({ shear: force / 2 }, section)),
        casting,
      ),
    ];
  }
  const { netTension, shearOut, bearing } = lugStresses(force, {
    width: 2 * eye.radius,
    thickness: eye.thickness,
    holeDiameter: eye.hole,
    pinDiameter: eye.pin,
    edge: eye.radius,
  });
  const root = rectangleSection(eye.thickness, 2 * eye.radius);
  const bent = cantilever(force, eye.centre - base);
  return [
    stressCheck('lug', 'tension beside the hole', netTension, casting),
    stressCheck('lug', 'shear-out', shearOut, casting, 'shear'),
    stressCheck('lug', 'bearing of the pin', bearing, casting, 'bearing'),
    stressCheck(
      'lug',
      'bending at the base',
      combinedStress(bendingStress(bent, root), shearStress(bent, root)),
      casting,
    ),
  ];
}
