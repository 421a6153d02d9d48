import { maths } from '../maths/maths.js';
import { planBacklash } from './backlash-plan.js';
import { gearFromRack } from './basic-rack.js';
import { externalFlankTable } from './flank-table.js';
import {
  internalCentreDistance,
  internalGeometry,
  internalPressureAngleAt,
  internalReferenceDistance,
} from './internal.js';
import { checkInternalPair, type InternalPairCheck } from './internal-pair-check.js';
import { internalLewisBeam, lewisBeam } from './lewis.js';
import {
  type ModuleChoice,
  type PairRequest,
  requestedRack,
  requestedSplit,
  requestedWidth,
  runWidth,
} from './pair-request.js';
import { backlashRefusal, shiftRefusal, shorten, tipRelief } from './pair-try.js';
import { loneRange, nameTeeth, placeOnCentres, ringShifts } from './place-on-centres.js';
import { searchSplit } from './search-split.js';
import { shiftRange } from './shift-split.js';
import type { GearSpec } from './spec.js';
import { toothForm } from './tooth-form.js';
import {
  type Attempt,
  checkRefusal,
  lengthText,
  refused,
  sizeRefusal,
  type TriedInternalPair,
} from './tried-pair.js';

/** Ring outside the roots, in tooth depths, and at least so many mm that a gate finds room on it (common practice, no source). */
const rimDepths = 1.2;
const leastRim = 7;
/** Sums tried where the axes are free: a negative one parts the tips of pinion and ring. */
const freeSums = [0, -0.3, -0.6];
/** Most that a part's tips can be shortened, mm. */
const mostShortening = 3;

type Result = Attempt<TriedInternalPair>;

/** One module and two tooth numbers of a pinion in a ring against the request; as `tryPair`. */
export function tryInternalPair(
  request: PairRequest,
  module: ModuleChoice,
  teeth: readonly [number, number],
): Result {
  const m = module.module;
  const rack = requestedRack(request);
  const placed = placeOnCentres(request, rack, m, teeth);
  if ('stage' in placed) return refused(placed);
  const bare = (z: number) =>
    gearFromRack(rack, { normalModule: m, teeth: z, helixAngle: placed.helixAngle });
  const [pinion, ring] = [bare(teeth[0]), bare(teeth[1])];
  const at = (x1: number, x2: number) =>
    tryShifts(request, module, { ...pinion, profileShift: x1 }, { ...ring, profileShift: x2 }, placed.by);
  const small = {
    ...ring,
    profileShift: request.profileShift === false || request.keepMate ? 0 : ringShifts[1],
  };
  const size = sizeRefusal(request, ringOutside(small), 0, nameTeeth('internal', teeth, m));
  // Too large however it is shifted: no use working out how.
  if (size) return refused(size);
  if (request.profileShift === false) return at(0, 0);

  let nearest: Result | undefined;
  for (const sum of placed.by === 'free' ? freeSums : [placed.sum]) {
    const [least, most] = request.keepMate ? loneRange(pinion) : shiftRange(pinion);
    const ringRange = request.keepMate ? ([0, 0] as const) : ringShifts;
    const [from, to] = [Math.max(least, sum - ringRange[1]), Math.min(most, sum - ringRange[0])];
    const result: Result =
      from > to + 1e-9
        ? refused(shiftRefusal(request, pinion, ring, sum, nameTeeth('internal', teeth, m)))
        : searchSplit(from, Math.max(from, to), (x1) => at(x1, sum - x1), meritOf(request));
    if (result.ok) return result;
    if (!nearest || (!nearest.ok && result.refusal.stage > nearest.refusal.stage)) nearest = result;
  }
  return nearest as Result;
}

/** What the split aims at; least is best. */
const meritOf =
  (request: PairRequest) =>
  ({ gear, mate, facts }: TriedInternalPair): number => {
    if (request.split === 'no-undercut') return Math.abs(gear.profileShift);
    if (request.split === 'equal-strength') {
      const [own, other] = [lewisBeam(gear), internalLewisBeam(mate)];
      return own.ok && other.ok
        ? Math.abs(own.beam.formFactor - other.beam.formFactor)
        : Number.POSITIVE_INFINITY;
    }
    const [root] = facts.pinionSliding;
    const [, ringRoot] = facts.ringSliding;
    return Number.isFinite(root) ? Math.abs(root - ringRoot) : Number.MAX_VALUE;
  };

function tryShifts(
  request: PairRequest,
  module: ModuleChoice,
  pinion: GearSpec,
  bareRing: GearSpec,
  by: TriedInternalPair['by'],
): Result {
  const m = module.module;
  const what = nameTeeth('internal', [pinion.teeth, bareRing.teeth], m);
  const distance = request.centreDistance ?? internalCentreDistance(pinion, bareRing);
  const sum = pinion.profileShift + bareRing.profileShift;
  // As between external gears, tips are shortened so far that the roots keep their clearance.
  const closed = Math.max(0, m * sum - (internalReferenceDistance(pinion, bareRing) - distance));
  const gear = { ...pinion, tipShortening: closed };
  const ring = request.keepMate
    ? bareRing
    : shortenedRing(gear, { ...bareRing, tipShortening: closed }, distance);
  if ((ring.tipShortening ?? 0) > mostShortening) {
    return refused({
      stage: 4,
      code: 'ring-tips-too-long',
      miss: (ring.tipShortening ?? 0) - mostShortening,
      message: `${what}: the ring’s tips would have to be ${lengthText(ring.tipShortening ?? 0)} shorter to clear the pinion; at most ${lengthText(mostShortening)}.`,
      remedy: 'Use a smaller module, more teeth on the pinion or a basic rack of smaller addendum.',
      parameters: ['module', 'teeth'],
    });
  }
  const outsideDiameter = ringOutside(ring);
  const size = sizeRefusal(request, outsideDiameter, distance, what);
  if (size) return refused(size);
  const play = planBacklash(request.backlash, requestedSplit(request), {
    kind: 'internal',
    gear,
    mate: ring,
    distance,
  });
  if (!play.ok) return refused(backlashRefusal(what, play));
  const options = { centreDistance: distance, faceWidth: runWidth(request, m) };
  let [first, second] = [play.mesh.gear, play.mesh.mate];
  let check: InternalPairCheck = checkInternalPair(first, second, options);
  const relief = check.facts ? tipRelief(first, check.facts.beyondRingInvolute) : 0;
  if (relief > 0) {
    first = shorten(first, relief);
    check = checkInternalPair(first, second, options);
  }
  const { facts, findings } = check;
  const failed = findings.find((f) => f.severity === 'stop');
  if (failed || facts === null) return refused(checkRefusal(what, failed, facts?.contactRatio));
  return {
    ok: true,
    pair: {
      mesh: 'internal',
      gear: first,
      mate: second,
      module,
      facts,
      findings: [...findings, ...(play.plan.cast?.findings ?? [])],
      backlash: play.plan,
      faceWidth: requestedWidth(request, m),
      by,
      rimThickness: rimThickness(ring),
      outsideDiameter,
    },
  };
}

/** Of a ring outside its roots, mm. */
export const rimThickness = (ring: GearSpec): number =>
  Math.max(leastRim, rimDepths * ring.normalModule * (ring.addendum + ring.dedendum));
const ringOutside = (ring: GearSpec): number => internalGeometry(ring).rootDiameter + 2 * rimThickness(ring);

/** The ring's tips shortened until they end where the pinion's involute starts, and outside the base circle. */
export function shortenedRing(pinion: GearSpec, ring: GearSpec, distance: number): GearSpec {
  const form = toothForm(pinion);
  const low = form.ok ? externalFlankTable(form.form).lowCurvature : 0;
  const along = distance * maths.sin(internalPressureAngleAt(pinion, ring, distance));
  const g = internalGeometry(ring);
  const least = maths.hypot(g.baseDiameter / 2, along + low) * (1 + 1e-9);
  return shorten(ring, Math.max(0, least - g.tipDiameter / 2));
}
