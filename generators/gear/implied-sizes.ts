/** Sizes that follow from others where they are not given, mm. */
import type { GearSpec } from '../../core/gear/spec.js';
import { rimBacking } from './body-sizes.js';

/** Of a ring outside its roots. */
export const usualRingRim = ({
  normalModule,
  addendum,
  dedendum,
}: Pick<GearSpec, 'normalModule' | 'addendum' | 'dedendum'>): number =>
  rimBacking * normalModule * (addendum + dedendum);

/** Of the rounded apex or the groove of a double-helical gear. */
export const usualApexWidth = (faceWidth: number): number => faceWidth / 5;
