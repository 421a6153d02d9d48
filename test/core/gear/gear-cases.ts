import { basicRackProfiles } from '../../../core/gear/basic-rack.js';
import type { GearSpec } from '../../../core/gear/spec.js';

export const deg = Math.PI / 180;

/** A gear of the ISO 53 profile A with what the worked example gives; angles in degrees. */
export const gear = (
  normalModule: number,
  teeth: number,
  profileShift = 0,
  betaDegrees = 0,
  more: Partial<GearSpec> = {},
): GearSpec => ({
  ...basicRackProfiles.A,
  normalModule,
  teeth,
  profileShift,
  helixAngle: betaDegrees * deg,
  thinning: 0,
  ...more,
});
