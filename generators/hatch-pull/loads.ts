import {
  archedGripStress,
  bendingStress,
  boltAllowables,
  cantilever,
  checkLoad,
  ellipseSection,
  fastenerFitting,
  type LoadCheck,
  lugStresses,
  type MemberCheck,
  rectangleSection,
  ringStress,
  rodName,
  soldLength,
  stressCheck,
} from '../../core/hardware/index.js';
import type { Fitting } from '../../core/part/contract.js';
import { strengthAllowables } from '../hardware/load-fields.js';
import type { PullPlan } from '../hardware/ring-plan.js';
import type { ScrewedTab } from './screwed-tab.js';
import type { HatchPullSizes } from './sizes.js';

/** Hatch that the screws of the cut list are long enough for, mm. */
const usualDeck = 20;

/**
 * What the pull bears, as its weakest member: a hinged one pulled in line with its tab; a screwed one lifted at its free end, square
 * to the hatch. The bevelled section counts as the ellipse in it, which is on the safe side.
 */
export function pullLoad(s: HatchPullSizes, plan: PullPlan, strengthOf: string): LoadCheck {
  const metal = strengthAllowables(strengthOf);
  const { pull: force, rimWidth, thickness } = s;
  if (s.screwed !== null) return checkLoad(force, screwedMembers(s, s.screwed, plan, strengthOf));
  const section = ellipseSection(thickness, rimWidth);
  const middle = plan.inner + rimWidth / 2;
  const ring = ringStress(force, middle, section, { shape: 'ellipse', height: rimWidth });
  const straight = archedGripStress(force, 2 * plan.halfY + 2 * middle, 2 * plan.halfY, section);
  const tab = lugStresses(force, {
    width: s.tabThickness,
    thickness: s.tabWidth,
    holeDiameter: s.holeDiameter,
    pinDiameter: s.pinDiameter,
    edge: s.pinToEnd,
  });
  return checkLoad(force, [
    stressCheck(
      'ring',
      'bending at the load',
      Math.max(ring.underLoad, plan.halfY > 0 ? straight : 0),
      metal,
    ),
    stressCheck('ring', 'bending at its sides', ring.side, metal),
    stressCheck('tab', 'tension beside the pin', tab.netTension, metal),
    stressCheck('tab', 'shear-out behind the pin', tab.shearOut, metal, 'shear'),
    stressCheck('tab', 'bearing on the pin', tab.bearing, metal, 'bearing'),
  ]);
}

/**
 * Lifted by the middle of the free end: two limbs bend over half the ring, the tab over all of it; the screws hold
 * the tab from tilting over its end, each in proportion to its distance from there (bolt groups, Shigley, 8-12, from memory).
 */
function screwedMembers(
  s: HatchPullSizes,
  { at, length, seat, screw }: ScrewedTab,
  plan: PullPlan,
  strengthOf: string,
): readonly MemberCheck[] {
  const metal = strengthAllowables(strengthOf);
  const { pull: force, rimWidth, thickness, tabWidth, tabThickness } = s;
  const load = plan.halfX + plan.inner + rimWidth / 2;
  const back = plan.halfX + plan.outer;
  const limb = bendingStress(cantilever(force / 2, load), ellipseSection(rimWidth, thickness));
  const root = bendingStress(cantilever(force, load + back), rectangleSection(tabWidth, tabThickness));
  const abreast = at[0][0] === at[1][0];
  // What the countersunk hole takes of the section, spread over its height.
  const hole =
    seat.holeDiameter + (seat.coneDepth * (seat.mouthDiameter - seat.holeDiameter)) / 2 / tabThickness;
  const net = rectangleSection(tabWidth - (abreast ? 2 : 1) * hole, tabThickness);
  const atScrews = bendingStress(cantilever(force, load - at[0][0]), net);
  const end = -(back + length);
  const arms = at.map(([x]) => x - end);
  const lever = (force * (load - end)) / arms.reduce((sum, a) => sum + a * a, 0);
  return [
    stressCheck('ring', 'bending of its sides', limb, metal),
    stressCheck('tab', 'bending at the ring', root, metal),
    stressCheck('tab', 'bending at the first screws', atScrews, metal),
    stressCheck(
      'screws',
      'tension',
      (lever * Math.max(...arms)) / screw.stressArea,
      boltAllowables('silicon bronze'),
    ),
  ];
}

/** Screws of a screwed tab; the pin of a hinged one, cut from rod. */
export function pullFittings(s: HatchPullSizes): readonly Fitting[] {
  if (s.screwed !== null) {
    const { screw, thickness } = s.screwed;
    const least = thickness + usualDeck + screw.hexagon.nutHeight + 3;
    return [fastenerFitting(screw, 2, soldLength(screw, least), 'countersunk', 'bronze')];
  }
  return [
    { quantity: 1, text: `bronze rod ${rodName(s.pinDiameter)} for the pin, as long as the bracket is wide` },
  ];
}
