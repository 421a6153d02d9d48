import {
  boltAllowables,
  checkLoad,
  cleatBoltTension,
  combinedStress,
  type LoadCheck,
  rectangleSection,
  roundSection,
  stressCheck,
} from '../../core/hardware/index.js';
import { pullOfLine, strengthAllowables } from '../hardware/load-fields.js';
import { eyeMembers } from './eye.js';
import type { DeckEyeParameters } from './parameters.js';
import { boltedBase, type DeckEyeSizes, eyeBoltMaterial } from './sizes.js';

/** The eye and its bolts: these pulled up, or along the deck with the base tilting over its end. */
export function eyeLoad(p: DeckEyeParameters, sizes: DeckEyeSizes): LoadCheck {
  const force = pullOfLine(p);
  const { screw, screws, thickness } = sizes.flange;
  const tilted = cleatBoltTension(force, boltedBase(sizes));
  const stress = Math.max(
    combinedStress(tilted / screw.stressArea, force / screws / screw.stressArea),
    force / screws / screw.stressArea,
  );
  return checkLoad(force, [
    ...eyeMembers(force, sizes.eye, thickness, strengthAllowables(p.strengthOf)),
    stressCheck('bolts', 'tension and shear', stress, boltAllowables(eyeBoltMaterial)),
  ]);
}

/** What the eye alone bears across its plane, N: ring or lug as a cantilever the weak way. */
export function sidePull(p: DeckEyeParameters, { eye, flange }: DeckEyeSizes): number {
  const allowable = strengthAllowables(p.strengthOf).tension;
  if (eye.kind === 'lug') {
    const { modulus } = rectangleSection(2 * eye.radius, eye.thickness);
    return (allowable * modulus) / (eye.centre - flange.thickness);
  }
  const { modulus } = roundSection(eye.bar);
  return (allowable * 2 * modulus) / (eye.centre + eye.opening / 2 - flange.thickness);
}
