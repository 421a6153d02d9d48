import type { GearSpec } from '../../../core/gear/spec.js';
import type { ToothedMember } from '../../../core/pair/mate/member.js';

/** A toothed part, a spur gear where nothing else is said. */
export const member = (spec: GearSpec, more: Partial<ToothedMember> = {}): ToothedMember => ({
  kind: 'gear',
  gearType: 'spur',
  spec,
  rackProfile: 'A',
  module: { module: spec.normalModule, series: 'I' },
  hand: 'left',
  apex: { shape: 'sharp', width: 0 },
  faceWidth: 20,
  tipRounding: 0,
  ...more,
});
