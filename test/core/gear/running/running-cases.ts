import {
  type ApexShape,
  doubleHelixLengths,
  type Hand,
  type HelixStretch,
  singleHelix,
  turnPerRise,
} from '../../../../core/gear/helix.js';
import { internalCentreDistance } from '../../../../core/gear/internal.js';
import { checkInternalPair } from '../../../../core/gear/internal-pair-check.js';
import type { Mesh } from '../../../../core/gear/mesh-backlash.js';
import { centreDistance, profileShiftSum, withPairTipShortening } from '../../../../core/gear/pair.js';
import { checkPair } from '../../../../core/gear/pair-check.js';
import { checkRackPair, rackMountingDistance } from '../../../../core/gear/rack-pair.js';
import { type RunningPair, runningPair } from '../../../../core/gear/running/running-pair.js';
import type { GearSpec } from '../../../../core/gear/spec.js';
import { parametersOf } from '../../../helpers/asked-pairs.js';
import { gear } from '../gear-cases.js';

type PartParameters = Readonly<Record<string, unknown>>;

export interface RunningCase {
  readonly pair: RunningPair;
  /** Part and parameters that build either member. */
  readonly gearPart: readonly [string, PartParameters];
  readonly matePart: readonly [string, PartParameters];
}

export const faceWidth = 12;
/** At which every case has teeth, off the layers of the meshes. */
export const heights = [0.37, 3.11, 8.83, 11.71];

const rackTeeth = 11;
const other = (hand: Hand): Hand => (hand === 'left' ? 'right' : 'left');
const thin = (thinning: number) => ({ thinning });
const short = (thinning: number) => ({ addendum: 0.8, rootRadius: 0.2, thinning });

const rateOf = (spec: GearSpec): number =>
  turnPerRise(spec.helixAngle, (spec.normalModule * spec.teeth) / Math.cos(spec.helixAngle) / 2);
const straightRun = (spec: GearSpec, hand: Hand): readonly HelixStretch[] =>
  singleHelix(0, faceWidth, rateOf(spec), hand);

function made(mesh: Mesh, run: readonly HelixStretch[]): RunningPair {
  const result = runningPair(mesh, { run });
  if (!result.ok) throw new Error(result.findings.map((f) => f.message).join(' '));
  return result.pair;
}

const body = { faceWidth, bore: 0 };

function external(
  [first, second]: readonly [GearSpec, GearSpec],
  distance: number,
  hand?: Hand,
): RunningCase {
  const part = hand ? 'helical-gear' : 'spur-gear';
  const parameters = (spec: GearSpec, own: Hand | undefined) => ({
    ...parametersOf(spec),
    ...body,
    ...(own ? { hand: own } : {}),
  });
  return {
    pair: made(
      { kind: 'external', gear: first, mate: second, distance },
      straightRun(first, hand ?? 'right'),
    ),
    gearPart: [part, parameters(first, hand)],
    matePart: [part, parameters(second, hand && other(hand))],
  };
}

function doubleHelical(
  [first, second]: readonly [GearSpec, GearSpec],
  distance: number,
  hand: Hand,
  shape: ApexShape,
): RunningCase {
  const apex = { shape, height: faceWidth / 2, width: 3, groove: 3 };
  const run = doubleHelixLengths(0, faceWidth, apex, rateOf(first), hand, first.teeth).flat();
  const more = { ...body, apex: shape, ...(shape === 'sharp' ? {} : { apexWidth: 3 }) };
  return {
    pair: made({ kind: 'external', gear: first, mate: second, distance }, run),
    gearPart: ['double-helical-gear', { ...parametersOf(first), ...more, lowerHand: hand }],
    matePart: ['double-helical-gear', { ...parametersOf(second), ...more, lowerHand: other(hand) }],
  };
}

const pinionPart = (spec: GearSpec, hand: Hand | undefined): readonly [string, PartParameters] => [
  hand ? 'helical-gear' : 'spur-gear',
  { ...parametersOf(spec), ...body, ...(hand ? { hand } : {}) },
];

function inRing(pinion: GearSpec, ring: GearSpec, hand?: Hand): RunningCase {
  const distance = internalCentreDistance(pinion, ring);
  return {
    pair: made(
      { kind: 'internal', gear: pinion, mate: ring, distance },
      straightRun(pinion, hand ?? 'right'),
    ),
    gearPart: pinionPart(pinion, hand),
    matePart: ['ring-gear', { ...parametersOf(ring), faceWidth, ...(hand ? { hand } : {}) }],
  };
}

function onRack(pinion: GearSpec, hand?: Hand): RunningCase {
  const { teeth: _teeth, profileShift: _shift, ...rack } = parametersOf(pinion);
  const mesh: Mesh = {
    kind: 'rack',
    gear: pinion,
    mate: { ...pinion, teeth: rackTeeth, profileShift: 0 },
    distance: rackMountingDistance(pinion),
  };
  return {
    pair: made(mesh, straightRun(pinion, hand ?? 'right')),
    gearPart: pinionPart(pinion, hand),
    matePart: ['rack', { ...rack, faceWidth, teeth: rackTeeth, ...(hand ? { hand: other(hand) } : {}) }],
  };
}

const own = (first: GearSpec, second: GearSpec): [readonly [GearSpec, GearSpec], number] => {
  const pair = withPairTipShortening(first, second);
  return [pair, centreDistance(...pair)];
};

/** 17 and 41 teeth of module 2 and 25° on 64 mm: the sum of shifts is what 64 mm asks for. */
function onSixtyFour(): [readonly [GearSpec, GearSpec], number] {
  const bare = [gear(2, 17, 0, 25, thin(0.06)), gear(2, 41, 0, 25, thin(0.06))] as const;
  const sum = profileShiftSum(...bare, 64);
  return [
    withPairTipShortening({ ...bare[0], profileShift: 0.6 * sum }, { ...bare[1], profileShift: 0.4 * sum }),
    64,
  ];
}

const apexPair = () => own(gear(2, 21, 0.1, 25, thin(0.05)), gear(2, 26, 0.1, 25, thin(0.05)));

export const runningCases: Readonly<Record<string, RunningCase>> = {
  'spur 24/40': external(...own(gear(2, 24, 0, 0, thin(0.05)), gear(2, 40, 0, 0, thin(0.04)))),
  'spur 13/24, shifted': external(...own(gear(2, 13, 0.5, 0, thin(0.08)), gear(2, 24, 0.3))),
  'spur 40/19, axes 0.2 mm apart': external([gear(2, 40), gear(2, 19)], 59.2),
  'helical 18/29, right': external(
    ...own(gear(2, 18, 0.25, 18, thin(0.05)), gear(2, 29, 0.15, 18, thin(0.05))),
    'right',
  ),
  'helical 14/37, left': external(...own(gear(2, 14, 0.2, 30, thin(0.1)), gear(2, 37, 0, 30)), 'left'),
  'double-helical 17/41 on 64 mm': doubleHelical(...onSixtyFour(), 'left', 'sharp'),
  'double-helical, rounded apex': doubleHelical(...apexPair(), 'right', 'rounded'),
  'double-helical, gap': doubleHelical(...apexPair(), 'left', 'gap'),
  'double-helical, staggered': doubleHelical(...apexPair(), 'right', 'staggered'),
  'ring: 20 in 60': inRing(gear(2, 20, 0, 0, thin(0.05)), gear(2, 60, 0, 0, short(0.05))),
  'ring: helical 20 in 52': inRing(
    gear(2, 20, 0, 20, thin(0.06)),
    gear(2, 52, 0.1, 20, short(0.06)),
    'right',
  ),
  'rack: 24 teeth': onRack(gear(2, 24, 0, 0, thin(0.05))),
  'rack: helical 17, left': onRack(gear(2, 17, 0.2, 30, thin(0.05)), 'left'),
};

/** What the check of its kind says of a pair. */
export function factsOf({ mesh: { kind, gear: first, mate, distance } }: RunningPair) {
  const facts =
    kind === 'external'
      ? checkPair(first, mate, { centreDistance: distance }).facts
      : kind === 'internal'
        ? checkInternalPair(first, mate, { centreDistance: distance }).facts
        : checkRackPair(first, mate, { mountingDistance: distance }).facts;
  if (!facts) throw new Error('refused');
  return facts;
}
