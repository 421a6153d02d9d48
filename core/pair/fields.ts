import type { z as Zod } from 'zod';
import { z } from 'zod';
import { usualSafetyFactor } from '../foundry/cast-strength.js';
import { castingTolerancePlan } from '../foundry/casting-tolerance.js';
import { thinningSplits } from '../gear/backlash.js';
import { shiftSplits } from '../gear/shift-split.js';
import { angle, choice, count, flag, length, number } from '../part/fields.js';

const [wanted, play, load, room, body] = ['Wanted', 'Backlash', 'Load', 'Space', 'Bodies'];
const free = 'left free';
const degrees = Math.PI / 180;

/** Cast holes and bored ones: half the width of the centre distance's tolerance, mm (common practice, no source). */
const boredTolerance = 0.1;
/** Largest gear and ring whose mould goes into the largest flask with a burnout programme, 300 mm (see `job.ts`). */
export const largestCast = { gear: 240, ring: 190, rack: 240 } as const;

const teeth = (help: string) => count({ min: 6, max: 200, derived: free, help, group: wanted });
const ranged = (help: string, group: string, min: number, max: number, derived = free) =>
  length({ min, max, derived, help, group });

/** What may be asked of a pair: whatever is left out is free. */
export const pairFields = z.object({
  gearType: choice(['spur', 'helical', 'double-helical'], {
    default: 'spur',
    help: 'Kind of gears',
    group: wanted,
  }),
  mate: choice(['gear', 'ring', 'rack'], {
    default: 'gear',
    help: 'What gear 1 runs with: another gear, a ring round it, or a rack',
    group: wanted,
  }),
  teeth: teeth('Tooth number of gear 1, the pinion of a ring or rack'),
  mateTeeth: teeth('Tooth number of gear 2, its mate; of a rack as a whole'),
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
    help: 'How far ratio or travelPerTurn may be off, as a share',
    group: wanted,
  }),
  travel: ranged('How far a rack is to travel', wanted, 5, 5000, 'one turn, in one piece'),
  travelPerTurn: ranged('Travel of a rack in one turn of its pinion', wanted, 20, 2000),
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
  pressureAngle: angle({
    min: 14 * degrees,
    max: 30 * degrees,
    default: 20 * degrees,
    help: 'Normal pressure angle',
    group: wanted,
    symbol: 'alpha_n',
  }),
  rackProfile: choice(['A', 'B', 'C', 'D'], {
    default: 'A',
    help: 'Basic rack of ISO 53: A has the largest root fillet, D the deepest root',
    group: wanted,
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
    help: 'Centre distance, to be met exactly; of a rack from the axis to its pitch line',
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
  keepMate: flag({
    default: false,
    help: 'Gear 2 is there already, with standard teeth: only gear 1 is drawn and thinned',
    group: wanted,
  }),
  backlashKind: choice(['circumferential', 'normal', 'centre-distance'], {
    default: 'circumferential',
    help: 'What the backlash is measured as: along the pitch circle, with a feeler gauge between the flanks, or how far the axes may move before the teeth bind',
    group: play,
  }),
  thinningSplit: choice(thinningSplits.filter((s) => s !== 'gear-1') as unknown as ['equal', 'wheel'], {
    default: 'equal',
    help: 'Which teeth are thinned for it: both alike, or the wheel’s alone',
    group: play,
  }),
  toothGrade: count({
    min: 3,
    max: 12,
    default: castingTolerancePlan.grade,
    help: 'as-cast: casting tolerance grade of the teeth, DCTG of ISO 8062-3',
    group: play,
  }),
  centreGrade: count({
    min: 3,
    max: 12,
    derived: 'the holes are bored',
    help: 'as-cast: the same of the centre distance, where the shafts sit in cast holes',
    group: play,
  }),
  centreTolerance: length({
    min: 0,
    max: 5,
    default: boredTolerance,
    help: 'as-cast: ± of the centre distance where the holes are bored',
    group: play,
  }),
  runout: length({
    min: 0,
    max: 5,
    default: 0,
    help: 'as-cast: total indicator reading of the teeth about their bores',
    group: play,
  }),
  crankRadius: length({
    min: 20,
    max: 1000,
    derived: 'no crank',
    help: 'A person at a crank on gear 1, in place of torque and power',
    group: load,
  }),
  safetyFactor: number({
    min: 1,
    max: 20,
    default: usualSafetyFactor,
    help: 'Tensile strength as cast over the stress allowed at the foot of a tooth',
    group: load,
  }),
  largestDiameter: ranged(
    'Largest outside diameter of either gear, of a ring with its rim',
    room,
    5,
    2000,
    `${largestCast.gear} mm, of a ring ${largestCast.ring} mm: what the largest flask with a burnout programme holds`,
  ),
  largestCentreDistance: ranged('Largest centre distance', room, 5, 2000),
  bore: ranged('Bore of gear 1', body, 0, 200, '10 mm, or what its roots leave room for'),
  mateBore: ranged('Bore of gear 2', body, 0, 200, '10 mm, or what its roots leave room for'),
});

export type PairFieldValues = Zod.output<typeof pairFields>;
