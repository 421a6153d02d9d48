import { maths } from '../maths/maths.js';
import { planBacklash } from './backlash-plan.js';
import { gearFromRack } from './basic-rack.js';
import { gearGeometry } from './gear-geometry.js';
import { lewisBeam, rackLewisBeam } from './lewis.js';
import {
  type ModuleChoice,
  type PairRequest,
  requestedRack,
  requestedSplit,
  requestedWidth,
  runWidth,
  usualRatioTolerance,
} from './pair-request.js';
import { backlashRefusal, shiftRefusal, shorten, tipRelief } from './pair-try.js';
import { nameTeeth, placeOnCentres } from './place-on-centres.js';
import { checkRackPair, rackMountingDistance, rackSliding } from './rack-pair.js';
import { searchSplit } from './search-split.js';
import { shiftRange } from './shift-split.js';
import type { GearSpec } from './spec.js';
import {
  type Attempt,
  checkRefusal,
  lengthText,
  type Refusal,
  refused,
  sizeRefusal,
  type TriedRackPair,
} from './tried-pair.js';

/** Longest piece a rack is cast in, mm: what the usual flasks hold (common practice, no source). */
const longestPiece = 160;
const fewestTeeth = 3;

type Result = Attempt<TriedRackPair>;

/** One module and a pinion on its rack against the request; as `tryPair`. The rack has no profile shift. */
export function tryRackPair(request: PairRequest, module: ModuleChoice, pinionTeeth: number): Result {
  const m = module.module;
  const rack = requestedRack(request);
  const teeth = [pinionTeeth, 0] as const;
  const placed = placeOnCentres(request, rack, m, teeth);
  if ('stage' in placed) return refused(placed);
  const what = nameTeeth('rack', teeth, m);
  const bare = gearFromRack(rack, { normalModule: m, teeth: pinionTeeth, helixAngle: placed.helixAngle });
  const travel = travelRefusal(request, bare, what);
  if (travel) return refused(travel);
  const at = (x1: number) => tryShift(request, module, { ...bare, profileShift: x1 }, placed.by);
  if (request.profileShift === false) return at(0);
  if (placed.by !== 'free') return at(placed.sum);
  const [least, most] = shiftRange(bare);
  if (least > most) return refused(shiftRefusal(request, bare, bare, least, what));
  if ((request.split ?? 'balanced-sliding') === 'no-undercut') return at(Math.max(0, least));
  return searchSplit(Math.max(0, least), Math.max(0, least, most), at, meritOf(request));
}

const meritOf =
  (request: PairRequest) =>
  ({ gear, mate, facts }: TriedRackPair): number => {
    if (request.split === 'equal-strength') {
      const [own, other] = [lewisBeam(gear), rackLewisBeam(mate)];
      return own.ok && other.ok
        ? Math.abs(own.beam.formFactor - other.beam.formFactor)
        : Number.POSITIVE_INFINITY;
    }
    const [root] = facts.pinionSliding;
    return Number.isFinite(root) ? Math.abs(root - rackSliding(facts)) : Number.MAX_VALUE;
  };

function travelRefusal(request: PairRequest, pinion: GearSpec, what: string): Refusal | null {
  if (request.travelPerTurn === undefined) return null;
  const travel = Math.PI * gearGeometry(pinion).referenceDiameter;
  const off = Math.abs(travel / request.travelPerTurn - 1);
  if (off <= (request.ratioTolerance ?? usualRatioTolerance) + 1e-12) return null;
  return {
    stage: 1,
    code: 'travel-not-met',
    miss: off,
    message: `Travel of ${lengthText(request.travelPerTurn)} a turn: the nearest, ${what}, travels ${lengthText(travel)}, ${Number((off * 100).toPrecision(3))} % off.`,
    remedy: `Ask for ${lengthText(travel)}, another module, or a wider ratio tolerance.`,
    parameters: ['travelPerTurn', 'ratioTolerance'],
  };
}

function tryShift(
  request: PairRequest,
  module: ModuleChoice,
  pinion: GearSpec,
  by: TriedRackPair['by'],
): Result {
  const m = module.module;
  const what = nameTeeth('rack', [pinion.teeth, 0], m);
  const distance = request.centreDistance ?? rackMountingDistance(pinion);
  const size = sizeRefusal(request, gearGeometry(pinion).tipDiameter, distance, what);
  if (size) return refused(size);
  const straight: GearSpec = { ...pinion, profileShift: 0, teeth: fewestTeeth };
  const play = planBacklash(request.backlash, requestedSplit(request), {
    kind: 'rack',
    gear: pinion,
    mate: straight,
    distance,
  });
  if (!play.ok) return refused(backlashRefusal(what, play));
  const options = { mountingDistance: distance, faceWidth: runWidth(request, m) };
  let [gear, mate] = [play.mesh.gear, play.mesh.mate];
  let check = checkRackPair(gear, mate, options);
  if (check.facts) {
    const { belowPinionInvolute: below, beyondRackFlank: beyond } = check.facts;
    // A height on the rack is sin α_t of its place on the line of action.
    const ofRack = Math.max(0, below) * maths.sin(gearGeometry(gear).transversePressureAngle);
    const ofPinion = tipRelief(gear, beyond);
    if ((!request.keepMate && ofRack > 1e-6) || ofPinion > 0) {
      gear = shorten(gear, ofPinion);
      if (!request.keepMate) mate = shorten(mate, ofRack);
      check = checkRackPair(gear, mate, options);
    }
  }
  const { facts, findings } = check;
  const failed = findings.find((f) => f.severity === 'stop');
  if (failed || facts === null) return refused(checkRefusal(what, failed, facts?.contactRatio));
  const pitch = facts.travelPerTurn / pinion.teeth;
  // Contact never holds more than ε_α pitches; without a travel the rack takes one turn, in one piece.
  const whole = Math.max(fewestTeeth, Math.floor(longestPiece / pitch));
  const rackTeeth =
    request.mateTeeth ??
    (request.travel === undefined
      ? Math.min(whole, pinion.teeth + 2)
      : Math.ceil(request.travel / pitch + facts.contactRatio) + 1);
  const pieces = Math.ceil(rackTeeth / whole);
  return {
    ok: true,
    pair: {
      mesh: 'rack',
      gear,
      mate: { ...mate, teeth: Math.max(fewestTeeth, Math.ceil(rackTeeth / pieces)) },
      module,
      facts,
      findings: [...findings, ...(play.plan.cast?.findings ?? [])],
      backlash: play.plan,
      faceWidth: requestedWidth(request, m),
      by,
      rackTeeth,
      pieces,
    },
  };
}
