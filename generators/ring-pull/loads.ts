import {
  archedGripStress,
  boltAllowables,
  checkLoad,
  ellipseSection,
  fastenerFitting,
  type LoadCheck,
  lugStresses,
  pinBending,
  pinShear,
  ringStress,
  soldLength,
  stressCheck,
} from '../../core/hardware/index.js';
import type { Fitting } from '../../core/part/contract.js';
import { strengthAllowables } from '../hardware/load-fields.js';
import { flushLayout } from './flush-sizes.js';
import type { RingPullParameters, RingPullSizes } from './sizes.js';

/** Deck that the screws of the cut list are long enough for, mm. */
const usualDeck = 20;

/** What the whole pull bears, as its weakest member. */
export function ringPullLoad(p: RingPullParameters, s: RingPullSizes): LoadCheck {
  const metal = strengthAllowables(p.strengthOf);
  const {
    pull: force,
    rimWidth,
    thickness,
    plan,
    pinDiameter,
    holeDiameter,
    tabWidth,
    gap,
    eyeThickness,
  } = s;
  const section = ellipseSection(thickness, rimWidth);
  const curve = { shape: 'ellipse', height: rimWidth } as const;
  const radius = plan.inner + rimWidth / 2;
  const ring = ringStress(force, radius, section, curve);
  const straight = archedGripStress(force, 2 * plan.halfY + 2 * radius, 2 * plan.halfY, section);
  const tab = lugStresses(force, {
    width: thickness,
    thickness: tabWidth,
    holeDiameter,
    pinDiameter,
    edge: s.pinToEnd,
  });
  const eyes = lugStresses(force / 2, {
    width: 2 * s.eyeRadius,
    thickness: eyeThickness,
    holeDiameter,
    pinDiameter,
    edge: s.style === 'flush' ? flushLayout(s).top - flushLayout(s).pinZ : s.eyeRadius,
  });
  const screws = p.style === 'flush' ? 4 : Number(p.fasteners);
  return checkLoad(force, [
    stressCheck(
      'ring',
      'bending at the load',
      plan.halfY > 0 ? Math.max(ring.underLoad, straight) : ring.underLoad,
      metal,
    ),
    stressCheck('ring', 'bending at its sides', ring.side, metal),
    stressCheck('tab', 'tension beside the pin', tab.netTension, metal),
    stressCheck('tab', 'shear-out behind the pin', tab.shearOut, metal, 'shear'),
    stressCheck('tab', 'bearing on the pin', tab.bearing, metal, 'bearing'),
    stressCheck('eyes', 'tension beside the pin', eyes.netTension, metal),
    stressCheck('eyes', 'shear-out over the pin', eyes.shearOut, metal, 'shear'),
    stressCheck('pin', 'shear', pinShear(force, pinDiameter, 2), metal, 'shear'),
    stressCheck(
      'pin',
      'bending',
      pinBending(force, pinDiameter, tabWidth, eyeThickness, (gap - tabWidth) / 2),
      metal,
    ),
    stressCheck('screws', 'tension', force / (screws * s.screw.stressArea), boltAllowables('silicon bronze')),
  ]);
}

/** The screws of a plate. */
export function plateFittings(s: RingPullSizes, p: RingPullParameters): readonly Fitting[] {
  const quantity = p.style === 'flush' ? 4 : Number(p.fasteners);
  const length = soldLength(s.screw, s.plateThickness + usualDeck + s.screw.hexagon.nutHeight + 3);
  return [fastenerFitting(s.screw, quantity, length, 'countersunk', 'bronze')];
}
