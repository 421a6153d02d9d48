import { backlashSizes } from '../../core/gear/backlash.js';
import { internalBacklash, internalCentreDistance } from '../../core/gear/internal.js';
import { centreDistance, profileShiftSum, withPairTipShortening } from '../../core/gear/pair.js';
import { checkRackPair } from '../../core/gear/rack-pair.js';
import type { GearSpec } from '../../core/gear/spec.js';
import type { Kernel, Mesh } from '../../core/solid/types.js';
import { deg, gear } from '../core/gear/gear-cases.js';
import { type AskedPair, askPair, parametersOf } from '../helpers/asked-pairs.js';
import { buildMesh } from '../helpers/built-states.js';
import type { Pose } from '../helpers/overlap-volume.js';
import { externalPair, internalPair, type MeshPair, rackPair } from '../helpers/turned-pair.js';

/** A pair the tests run as meshes. The program's own figures are only what is asked for and what must be found. */
export interface RunningPair {
  /** Circumferential and normal backlash that must be found, mm. */
  readonly backlash: { readonly circumferential: number; readonly normal: number };
  readonly helical: boolean;
  /** Whether there are teeth at a height. */
  readonly toothed: (z: number) => boolean;
  readonly build: (kernel: Kernel, tolerance: number) => readonly [Mesh, Mesh];
  readonly inSections: (meshes: readonly [Mesh, Mesh], heights: readonly number[]) => MeshPair;
  /** Where both stand at a share of a pitch, one of them moved on by an arc at its pitch circle. */
  readonly poses: (share: number, arc: number) => readonly [Pose, Pose];
}

export const faceWidth = 10;
const full = 2 * Math.PI;

type Hand = 'left' | 'right';
type Extra = Readonly<Record<string, unknown>>;
const otherHand = (hand: Hand): Hand => (hand === 'left' ? 'right' : 'left');
/** The two members' own parameters: opposite hands, the rest alike. */
const hands = (key: 'hand' | 'lowerHand', first: Hand, more: Extra = {}): readonly [Extra, Extra] => [
  { [key]: first, ...more },
  { [key]: otherHand(first), ...more },
];

function external(
  part: 'spur-gear' | 'helical-gear' | 'double-helical-gear',
  { gears, distance, play }: AskedPair,
  extra: readonly [Extra, Extra] = [{}, {}],
): RunningPair {
  const [z1, z2] = gears.map((g) => g.teeth) as [number, number];
  const apex = extra[0].apex;
  const groove = apex === 'gap' || apex === 'staggered' ? (extra[0].apexWidth as number) : 0;
  const radius = (distance * z2) / (z1 + z2);
  return {
    backlash: { circumferential: play, normal: backlashSizes(...gears, distance).normal },
    helical: part !== 'spur-gear',
    toothed: (z) => Math.abs(z - faceWidth / 2) >= groove / 2,
    build: (kernel, tolerance) =>
      gears.map((spec, i) =>
        buildMesh(kernel, part, { ...parametersOf(spec), faceWidth, bore: 0, ...extra[i] }, tolerance),
      ) as [Mesh, Mesh],
    inSections: ([first, second], heights) =>
      externalPair({ mesh: first, teeth: z1 }, { mesh: second, teeth: z2 }, distance, heights),
    poses: (share, arc) => [
      { turn: (share * full) / z1, by: [0, 0, 0] },
      { turn: Math.PI - Math.PI / z2 - (share * full) / z2 + arc / radius, by: [distance, 0, 0] },
    ],
  };
}

function internal(pinion: GearSpec, ring: GearSpec, hand?: Hand): RunningPair {
  const distance = internalCentreDistance(pinion, ring);
  const radius = (distance * ring.teeth) / (ring.teeth - pinion.teeth);
  const more = { faceWidth, ...(hand ? { hand } : {}) };
  return {
    backlash: internalBacklash(pinion, ring),
    helical: hand !== undefined,
    toothed: () => true,
    build: (kernel, tolerance) => [
      buildMesh(kernel, ...pinionPart(pinion, hand), tolerance),
      buildMesh(kernel, 'ring-gear', { ...parametersOf(ring), ...more }, tolerance),
    ],
    inSections: ([first, second], heights) =>
      internalPair(
        { mesh: first, teeth: pinion.teeth },
        { mesh: second, teeth: ring.teeth },
        distance,
        heights,
      ),
    poses: (share, arc) => [
      { turn: (share * full) / pinion.teeth, by: [distance, 0, 0] },
      { turn: (share * full) / ring.teeth + arc / radius, by: [0, 0, 0] },
    ],
  };
}

const rackTeeth = 10;

function onRack(pinion: GearSpec, hand?: Hand): RunningPair {
  const { facts } = checkRackPair(pinion, pinion);
  if (!facts) throw new Error('refused');
  const pitch = facts.travelPerTurn / pinion.teeth;
  const { teeth: _teeth, profileShift: _shift, ...rack } = parametersOf(pinion);
  const more = { faceWidth, teeth: rackTeeth, ...(hand ? { hand: otherHand(hand) } : {}) };
  return {
    backlash: facts.backlash,
    helical: hand !== undefined,
    toothed: () => true,
    build: (kernel, tolerance) => [
      buildMesh(kernel, ...pinionPart(pinion, hand), tolerance),
      buildMesh(kernel, 'rack', { ...rack, ...more }, tolerance),
    ],
    inSections: ([first, second], heights) =>
      rackPair(
        { mesh: first, teeth: pinion.teeth },
        { mesh: second, teeth: rackTeeth },
        facts.mountingDistance,
        heights,
      ),
    poses: (share, arc) => [
      { turn: (share * full) / pinion.teeth - Math.PI / 2, by: [0, facts.mountingDistance, 0] },
      { turn: 0, by: [(share - rackTeeth / 2) * pitch + arc, 0, 0] },
    ],
  };
}

const pinionPart = (spec: GearSpec, hand: Hand | undefined): [string, Record<string, unknown>] => [
  hand ? 'helical-gear' : 'spur-gear',
  { ...parametersOf(spec), faceWidth, bore: 0, ...(hand ? { hand } : {}) },
];

/** At the distance that goes with the gears' own shifts, tips shortened for it. */
const own = (
  first: GearSpec,
  second: GearSpec,
  kind: 'circumferential' | 'normal',
  play: number,
): AskedPair => {
  const pair = withPairTipShortening(first, second);
  return askPair(pair, centreDistance(...pair), kind, play);
};

/** Shifts that make the pair mesh at a centre distance, `share` of their sum on the first. */
const shiftedTo = (distance: number, first: GearSpec, second: GearSpec, share: number) => {
  const sum = profileShiftSum(first, second, distance);
  return withPairTipShortening(
    { ...first, profileShift: share * sum },
    { ...second, profileShift: (1 - share) * sum },
  );
};

const steep = { normalPressureAngle: 25 * deg, rootRadius: 0.2 };
const apexPair = (): AskedPair => own(gear(2, 21, 0.1, 25), gear(2, 26, 0.1, 25), 'circumferential', 0.1);
const thin = (thinning: number) => ({ thinning });
const shortTeeth = (thinning: number) => ({ addendum: 0.8, rootRadius: 0.2, thinning });

export const runningPairs: Readonly<Record<string, RunningPair>> = {
  'spur 17/31 at the reference distance': external(
    'spur-gear',
    askPair([gear(2, 17), gear(2, 31)], 48, 'circumferential', 0.1),
  ),
  'spur 13/24, x 0.5 and 0.3': external('spur-gear', own(gear(2, 13, 0.5), gear(2, 24, 0.3), 'normal', 0.08)),
  'spur 19/28 shifted to 48 mm, thinning on the wheel': external(
    'spur-gear',
    askPair(shiftedTo(48, gear(2, 19), gear(2, 28), 0.6), 48, 'circumferential', 0.15, 'wheel'),
  ),
  'spur 20/30 of 25°, axes opened by 0.12 mm, no thinning': external(
    'spur-gear',
    askPair([gear(2, 20, 0, 0, steep), gear(2, 30, 0, 0, steep)], 50.12, 'centre-distance', 0.12),
  ),
  'helical 18/29 of 18°, x 0.25 and 0.15': external(
    'helical-gear',
    own(gear(2, 18, 0.25, 18), gear(2, 29, 0.15, 18), 'normal', 0.06),
    hands('hand', 'right'),
  ),
  'helical 14/37 of 30°, closed to 58.7 mm': external(
    'helical-gear',
    askPair(shiftedTo(58.7, gear(2, 14, 0, 30), gear(2, 37, 0, 30), 0.1), 58.7, 'circumferential', 0.2),
    hands('hand', 'left'),
  ),
  'double-helical 18/30 of 28°, sharp': external(
    'double-helical-gear',
    own(gear(2, 18, 0.2, 28), gear(2, 30, 0, 28), 'circumferential', 0.12),
    hands('lowerHand', 'left'),
  ),
  'double-helical 21/26 of 25°, rounded': external(
    'double-helical-gear',
    apexPair(),
    hands('lowerHand', 'right', { apex: 'rounded', apexWidth: 4 }),
  ),
  'double-helical 21/26 of 25°, with a gap': external(
    'double-helical-gear',
    apexPair(),
    hands('lowerHand', 'left', { apex: 'gap', apexWidth: 3 }),
  ),
  'double-helical 21/26 of 25°, staggered': external(
    'double-helical-gear',
    apexPair(),
    hands('lowerHand', 'right', { apex: 'staggered', apexWidth: 3 }),
  ),
  'ring: 20 in 60': internal(gear(2, 20, 0, 0, thin(0.05)), gear(2, 60, 0, 0, shortTeeth(0.05))),
  'ring: 18 in 51, x 0.3 and −0.1': internal(
    gear(2, 18, 0.3, 0, thin(0.03)),
    gear(2, 51, -0.1, 0, shortTeeth(0.09)),
  ),
  'ring: helical 20 in 52 of 20°': internal(
    gear(2, 20, 0, 20, thin(0.06)),
    gear(2, 52, 0.1, 20, shortTeeth(0.06)),
    'right',
  ),
  'ring: helical 23 in 60 of 12°, left': internal(
    gear(1.5, 23, 0.2, 12, thin(0.05)),
    gear(1.5, 60, 0, 12, shortTeeth(0.05)),
    'left',
  ),
  'rack: 24 teeth': onRack(gear(2, 24, 0, 0, thin(0.05))),
  'rack: 12 teeth, x 0.6': onRack(gear(2, 12, 0.6, 0, thin(0.04))),
  'rack: helical 20 of 20°, x 0.1': onRack(gear(2, 20, 0.1, 20, thin(0.06)), 'right'),
  'rack: helical 17 of 30°, left': onRack(gear(2, 17, 0.2, 30, thin(0.05)), 'left'),
};
