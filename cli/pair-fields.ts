import { z } from 'zod';
import type { PairRequest } from '../core/gear/pair-request.js';
import { shiftSplits } from '../core/gear/shift-split.js';
import { angle, choice, count, flag, length, number } from '../core/part/fields.js';

const wanted = 'Wanted';
const room = 'Space';
const free = 'left free';
const degrees = Math.PI / 180;

const teeth = (help: string) => count({ min: 6, max: 200, derived: free, help, group: wanted });
const room_ = (help: string) => length({ min: 5, max: 2000, derived: free, help, group: room });

/** What may be asked of a pair: whatever is left out is free. */
export const pairFields = z.object({
  gearType: choice(['spur', 'helical', 'double-helical'], {
    default: 'spur',
    help: 'Kind of gears',
    group: wanted,
  }),
  teeth: teeth('Tooth number of gear 1'),
  mateTeeth: teeth('Tooth number of gear 2, its mate'),
  ratio: number({
    min: 0.05,
    max: 20,
    derived: free,
    help: 'Turns of gear 1 for one of gear 2: z_2 / z_1',
    group: wanted,
  }),
  ratioTolerance: number({
    min: 0,
    max: 0.5,
    default: 0.02,
    help: 'How far the ratio may be off, as a share',
    group: wanted,
  }),
  module: length({
    min: 0.5,
    max: 12,
    derived: 'of ISO 54, series I first',
    help: 'Normal module',
    group: wanted,
    symbol: 'm_n',
  }),
  diametralPitch: number({
    min: 2,
    max: 50.8,
    derived: 'not used',
    help: 'Normal diametral pitch, instead of the module',
    group: wanted,
    symbol: 'P_n',
  }),
  helixAngle: angle({
    min: 0,
    max: 45 * degrees,
    derived: free,
    help: 'Helix angle',
    group: wanted,
    symbol: 'beta',
  }),
  centreDistance: length({
    min: 5,
    max: 1000,
    derived: free,
    help: 'Centre distance, to be met exactly',
    group: wanted,
    symbol: 'a',
  }),
  faceWidth: length({
    min: 3,
    max: 150,
    derived: '10 modules',
    help: 'Face width',
    group: wanted,
    symbol: 'b',
  }),
  profileShift: flag({
    default: true,
    help: 'Profile shift may be used; --no-profile-shift for none',
    group: wanted,
  }),
  split: choice(shiftSplits, {
    default: 'balanced-sliding',
    help: 'How profile shift is shared',
    group: wanted,
  }),
  backlash: length({ min: 0, max: 3, derived: '0.04 modules', help: 'Backlash', group: wanted, symbol: 'j' }),
  backlashKind: choice(['circumferential', 'normal', 'centre-distance'], {
    default: 'circumferential',
    help: 'What the backlash is measured as',
    group: wanted,
  }),
  largestDiameter: room_('Largest outside diameter of either gear'),
  largestCentreDistance: room_('Largest centre distance'),
});

export type PairFieldValues = z.output<typeof pairFields>;

/** The search's request: only what was given. */
export function requestFrom(v: PairFieldValues): PairRequest {
  const given = <K extends string, T>(key: K, value: T | undefined) =>
    (value === undefined ? {} : { [key]: value }) as { [P in K]?: T };
  const bothTeeth = v.teeth !== undefined && v.mateTeeth !== undefined;
  return {
    gearType: v.gearType,
    ratioTolerance: v.ratioTolerance,
    profileShift: v.profileShift,
    split: v.split,
    ...(bothTeeth ? { teeth: [v.teeth as number, v.mateTeeth as number] as const } : {}),
    ...given('gearTeeth', bothTeeth ? undefined : v.teeth),
    ...given('ratio', v.ratio),
    ...given('module', v.module),
    ...given('diametralPitch', v.diametralPitch),
    ...given('helixAngle', v.helixAngle),
    ...given('centreDistance', v.centreDistance),
    ...given('faceWidth', v.faceWidth),
    ...given('largestDiameter', v.largestDiameter),
    ...given('largestCentreDistance', v.largestCentreDistance),
    ...(v.backlash === undefined ? {} : { backlash: { kind: v.backlashKind, value: v.backlash } }),
  };
}
