import { maths } from '../maths/maths.js';
import { planBacklash } from './backlash-plan.js';
import { gearFromRack } from './basic-rack.js';
import { gearGeometry } from './gear-geometry.js';
import { centreDistance } from './pair.js';
import { checkPair, type PairFacts } from './pair-check.js';
import {
  type ModuleChoice,
  type PairRequest,
  requestedRack,
  requestedSplit,
  requestedWidth,
  runWidth,
} from './pair-request.js';
import { nameTeeth, placeOnCentres, shiftSums } from './place-on-centres.js';
import { shiftedPair, splitShift } from './shift-split.js';
import type { GearSpec } from './spec.js';
import { type Attempt, checkRefusal, type Refusal, refused, sizeRefusal } from './tried-pair.js';

/** One module and two tooth numbers against the request: helix, shift, thinning, then the full check. */
export function tryPair(
  request: PairRequest,
  module: ModuleChoice,
  teeth: readonly [number, number],
): Attempt {
  const m = module.module;
  const rack = requestedRack(request);
  const placed = placeOnCentres(request, rack, m, teeth);
  if ('stage' in placed) return refused(placed);
  const { helixAngle, sum, by } = placed;
  const what = nameTeeth('external', teeth, m);
  const bare = (z: number) => gearFromRack(rack, { normalModule: m, teeth: z, helixAngle });
  const [gear, mate] = [bare(teeth[0]), bare(teeth[1])];

  let shifts: readonly [number, number] = [0, 0];
  if (request.profileShift !== false) {
    const first = request.keepMate
      ? loneShift(gear, sum)
      : splitShift(gear, mate, sum, request.split ?? 'balanced-sliding');
    if (first === null) return refused(shiftRefusal(request, gear, mate, sum, what));
    shifts = [first, sum - first];
  }
  const shortened = shiftedPair(gear, mate, ...shifts);
  const shifted: readonly [GearSpec, GearSpec] = request.keepMate ? [shortened[0], mate] : shortened;
  const distance = request.centreDistance ?? centreDistance(...shifted);
  const across = Math.max(...shifted.map((spec) => gearGeometry(spec).tipDiameter));
  const size = sizeRefusal(request, across, distance, what);
  if (size) return refused(size);

  const play = planBacklash(request.backlash, requestedSplit(request), {
    kind: 'external',
    gear: shifted[0],
    mate: shifted[1],
    distance,
  });
  if (!play.ok) return refused(backlashRefusal(what, play));
  const thinned = [play.mesh.gear, play.mesh.mate] as const;
  const options = { centreDistance: distance, faceWidth: runWidth(request, m) };
  const whole = checkPair(...thinned, options);
  const relieved = whole.facts && relieveTips(thinned, whole.facts, request.keepMate ?? false);
  const [first, second] = relieved ?? thinned;
  const { facts, findings } = relieved ? checkPair(...relieved, options) : whole;
  const failed = findings.find((f) => f.severity === 'stop');
  if (failed || facts === null) return refused(checkRefusal(what, failed, facts?.contactRatio));
  return {
    ok: true,
    pair: {
      mesh: 'external',
      gear: first,
      mate: second,
      module,
      facts,
      findings: [...findings, ...(play.plan.cast?.findings ?? [])],
      backlash: play.plan,
      faceWidth: requestedWidth(request, m),
      by,
    },
  };
}

export const backlashRefusal = (
  what: string,
  { miss, message, remedy }: { readonly miss: number; readonly message: string; readonly remedy: string },
): Refusal => ({
  stage: 3,
  code: 'backlash-not-met',
  miss,
  message: `${what}: ${message}`,
  remedy,
  parameters: ['backlash'],
});

/** The whole sum on gear 1, where it bears it. */
function loneShift(gear: GearSpec, sum: number): number | null {
  const [least, most] = shiftSums({ gearType: 'spur', keepMate: true }, gear, gear);
  return sum < least - 1e-9 || sum > most + 1e-9 ? null : sum;
}

/** Most that tips are shortened to clear a fillet, in modules: beyond it another pair serves better. */
const mostRelief = 0.15;

/** Tips shortened until they end where the mate's involute starts; null when nothing, or too much, is in the way. */
function relieveTips(
  [gear, mate]: readonly [GearSpec, GearSpec],
  facts: PairFacts,
  keepMate: boolean,
): readonly [GearSpec, GearSpec] | null {
  const ofGear = tipRelief(gear, facts.mate.belowInvolute);
  const ofMate = keepMate ? 0 : tipRelief(mate, facts.gear.belowInvolute);
  const most = Math.max(ofGear, ofMate);
  if (most === 0 || most > mostRelief * gear.normalModule) return null;
  return [shorten(gear, ofGear), shorten(mate, ofMate)];
}

export const shorten = (spec: GearSpec, by: number): GearSpec => ({
  ...spec,
  tipShortening: (spec.tipShortening ?? 0) + by,
});

/** How much of an external tip to take off so that it ends `beyond` earlier on the line of action, mm. */
export function tipRelief(spec: GearSpec, beyond: number): number {
  if (beyond <= 1e-6) return 0;
  const g = gearGeometry(spec);
  const rho = Math.sqrt((g.tipDiameter / 2) ** 2 - (g.baseDiameter / 2) ** 2);
  return g.tipDiameter / 2 - maths.hypot(g.baseDiameter / 2, rho - beyond);
}

const figure = (value: number): number => Number(value.toFixed(3));

export function shiftRefusal(
  request: PairRequest,
  gear: GearSpec,
  mate: GearSpec,
  sum: number,
  what: string,
): Refusal {
  const [least, most] = shiftSums(request, gear, mate);
  return {
    stage: 2,
    code: 'profile-shift-out-of-range',
    miss: Math.max(least - sum, sum - most),
    message:
      least > most
        ? `${what}: ${figure(least)} of profile shift is needed to keep them free of undercut, ${figure(least - most)} more than the ${figure(most)} that leaves their tips thick enough.`
        : `${what} would need a profile shift sum of ${figure(sum)}, ${figure(Math.max(least - sum, sum - most))} ${sum < least ? 'less than' : 'more than'} their teeth bear, ${figure(least)} to ${figure(most)}.`,
    remedy:
      least > most
        ? 'Ask for more teeth or a basic rack with a smaller addendum.'
        : 'Ask for more teeth, a smaller pressure angle or another centre distance.',
    parameters: ['profileShift', 'teeth', 'centreDistance'],
  };
}
