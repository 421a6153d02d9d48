import type { Finding } from '../part/finding.js';
import { circumferentialFrom, thinningFor, withThinning } from './backlash.js';
import { type BasicRack, gearFromRack } from './basic-rack.js';
import { gearGeometry } from './gear-geometry.js';
import { centreDistance, profileShiftSum } from './pair.js';
import { checkPair, type PairFacts } from './pair-check.js';
import type { ModuleChoice, PairRequest } from './pair-request.js';
import { requestedRack } from './pair-request.js';
import { shiftedPair, shiftRange, splitShift } from './shift-split.js';
import type { GearSpec } from './spec.js';

/** Which part of the request one attempt failed, and by how much; `miss` orders attempts at the same constraint. */
export interface Refusal {
  /** Later stages got further. */
  readonly stage: 1 | 2 | 3 | 4;
  readonly code: string;
  readonly miss: number;
  readonly message: string;
  readonly remedy: string;
  readonly parameters: readonly string[];
}

/** A pair that meets the request. */
export interface TriedPair {
  readonly gear: GearSpec;
  readonly mate: GearSpec;
  readonly module: ModuleChoice;
  readonly facts: PairFacts;
  readonly findings: readonly Finding[];
  /** How the centre distance was met. */
  readonly by: 'reference' | 'helix' | 'shift' | 'helix and shift' | 'free';
}

export type Attempt =
  | { readonly ok: true; readonly pair: TriedPair }
  | { readonly ok: false; readonly refusal: Refusal };

const degrees = Math.PI / 180;

/**
 * Helix angles sought when free: single helices keep their thrust small, double helices have none to mind. From the
 * least that is worth cutting to the most that castings leave the mould with (common practice, no source).
 */
export const freeHelix = {
  helical: { from: 8 * degrees, to: 30 * degrees, usual: 15 * degrees },
  'double-helical': { from: 15 * degrees, to: 45 * degrees, usual: 25 * degrees },
} as const;

const mm = (value: number, digits = 3): string => `${Number(value.toFixed(digits))} mm`;
const deg = (angle: number): string => `${Number((angle / degrees).toFixed(3))}°`;

/** One module and two tooth numbers against the request: helix, shift, thinning, then the full check. */
export function tryPair(
  request: PairRequest,
  module: ModuleChoice,
  teeth: readonly [number, number],
): Attempt {
  const rack = requestedRack(request);
  const placed = placeOnCentres(request, rack, module.module, teeth);
  if ('stage' in placed) return { ok: false, refusal: placed };
  const { helixAngle, sum, by } = placed;
  const bare = (z: number) => gearFromRack(rack, { normalModule: module.module, teeth: z, helixAngle });
  const [gear, mate] = [bare(teeth[0]), bare(teeth[1])];

  let shifts: readonly [number, number] = [0, 0];
  if (request.profileShift !== false) {
    const first = splitShift(gear, mate, sum, request.split ?? 'balanced-sliding');
    if (first === null) return { ok: false, refusal: shiftRefusal(gear, mate, sum) };
    shifts = [first, sum - first];
  }
  const shifted = shiftedPair(gear, mate, ...shifts);
  const distance = request.centreDistance ?? centreDistance(...shifted);
  const size = sizeRefusal(request, shifted, distance);
  if (size) return { ok: false, refusal: size };

  const asked = request.backlash ?? { kind: 'circumferential' as const, value: 0.04 * module.module };
  const play = circumferentialFrom(asked.kind, asked.value, ...shifted, distance);
  const thinned = withThinning(...shifted, thinningFor(play, ...shifted, distance));
  const halves = request.gearType === 'double-helical' ? 2 : 1;
  const options = {
    centreDistance: distance,
    ...(request.faceWidth === undefined ? {} : { faceWidth: request.faceWidth / halves }),
  };
  const whole = checkPair(...thinned, options);
  const relieved = whole.facts && relieveTips(thinned, whole.facts);
  const [first, second] = relieved ?? thinned;
  const { facts, findings } = relieved ? checkPair(...relieved, options) : whole;
  const failed = findings.find((f) => f.severity === 'stop');
  if (failed || facts === null) {
    return {
      ok: false,
      refusal: {
        stage: 4,
        code: failed?.code ?? 'pair-fails',
        miss: 1 - (facts?.contactRatio ?? 0),
        message: `${named(teeth, module.module)}: ${failed?.message ?? 'the pair cannot be reckoned.'}`,
        remedy: failed?.remedy ?? 'Ask for other tooth numbers.',
        parameters: failed?.parameters ?? [],
      },
    };
  }
  return { ok: true, pair: { gear: first, mate: second, module, facts, findings, by } };
}

/** Most that tips are shortened to clear a fillet, in modules: beyond it another pair serves better. */
const mostRelief = 0.15;

/** Tips shortened until they end where the mate's involute starts; null when nothing, or too much, is in the way. */
function relieveTips(
  [gear, mate]: readonly [GearSpec, GearSpec],
  facts: PairFacts,
): [GearSpec, GearSpec] | null {
  const relief = (spec: GearSpec, beyond: number): number => {
    if (beyond <= 1e-6) return 0;
    const g = gearGeometry(spec);
    const rho = Math.sqrt((g.tipDiameter / 2) ** 2 - (g.baseDiameter / 2) ** 2);
    return g.tipDiameter / 2 - Math.hypot(g.baseDiameter / 2, rho - beyond);
  };
  const [ofGear, ofMate] = [relief(gear, facts.mate.belowInvolute), relief(mate, facts.gear.belowInvolute)];
  const most = Math.max(ofGear, ofMate);
  if (most === 0 || most > mostRelief * gear.normalModule) return null;
  return [
    { ...gear, tipShortening: (gear.tipShortening ?? 0) + ofGear },
    { ...mate, tipShortening: (mate.tipShortening ?? 0) + ofMate },
  ];
}

const named = ([z1, z2]: readonly [number, number], m: number): string =>
  `${z1} and ${z2} teeth of module ${Number(m.toFixed(4))}`;

type Placed = Pick<TriedPair, 'by'> & { readonly helixAngle: number; readonly sum: number };

/** Helix angle and shift sum that put the pair on its centre distance. */
function placeOnCentres(
  request: PairRequest,
  rack: BasicRack,
  m: number,
  teeth: readonly [number, number],
): Placed | Refusal {
  const helix = helixOf(request, m);
  const wanted = request.centreDistance;
  const mayShift = request.profileShift !== false;
  const bare = (beta: number, i: 0 | 1) =>
    gearFromRack(rack, { normalModule: m, teeth: teeth[i], helixAngle: beta });
  if (wanted === undefined) {
    // The least sum that leaves neither undercut, and none where the gears need none.
    const needed = mayShift
      ? Math.max(0, shiftRange(bare(helix.usual, 0))[0] + shiftRange(bare(helix.usual, 1))[0])
      : 0;
    return { helixAngle: helix.usual, sum: needed, by: 'free' };
  }
  const plain = (m * (teeth[0] + teeth[1])) / 2;
  const cos = plain / wanted;
  if (helix.from !== helix.to && cos <= Math.cos(helix.from) && cos >= Math.cos(helix.to)) {
    return { helixAngle: Math.acos(cos), sum: 0, by: 'helix' };
  }
  const beta =
    Math.abs(cos - Math.cos(helix.from)) < Math.abs(cos - Math.cos(helix.to)) ? helix.from : helix.to;
  const reference = plain / Math.cos(beta);
  if (Math.abs(reference - wanted) < 1e-9 * wanted) return { helixAngle: beta, sum: 0, by: 'reference' };
  const [gear, mate] = [bare(beta, 0), bare(beta, 1)];
  const refusal = (reachable: number, how: string): Refusal => ({
    stage: 2,
    code: 'centre-distance-not-met',
    miss: Math.abs(reachable - wanted),
    message: `Centre distance ${mm(wanted)}: the nearest, ${named(teeth, m)}${beta > 0 ? ` at ${deg(beta)}` : ''}, ${how} ${mm(reachable)}, ${mm(Math.abs(reachable - wanted))} ${reachable < wanted ? 'too little' : 'too much'}.`,
    remedy: `Ask for a centre distance of ${mm(reachable)}, another module or a wider ratio${mayShift ? '' : ', or allow profile shift'}.`,
    parameters: ['centreDistance'],
  });
  if (!mayShift) return refusal(reference, 'runs at');
  // Far off: no use working out what shift would do.
  if (wanted < reference - m || wanted > reference + 2 * m)
    return refusal(reference + (wanted > reference ? 2 : -1) * m, 'reaches no further than about');
  const [range1, range2] = [shiftRange(gear), shiftRange(mate)];
  const [least, most] = [range1[0] + range2[0], range1[1] + range2[1]];
  const at = (sum: number) => centreDistance({ ...gear, profileShift: sum }, mate);
  const base = reference * Math.cos(gearGeometry(gear).transversePressureAngle);
  const sum = wanted > base ? profileShiftSum(gear, mate, wanted) : Number.NEGATIVE_INFINITY;
  if (sum < least - 1e-9 || sum > most + 1e-9) {
    const limit = sum < least ? least : most;
    const reachable = most < least ? reference : at(limit);
    return refusal(reachable, 'reaches with the profile shift its teeth bear');
  }
  return { helixAngle: beta, sum, by: helix.from === helix.to ? 'shift' : 'helix and shift' };
}

interface HelixChoice {
  readonly from: number;
  readonly to: number;
  readonly usual: number;
}

function helixOf(request: PairRequest, m: number): HelixChoice {
  if (request.gearType === 'spur') return { from: 0, to: 0, usual: 0 };
  if (request.helixAngle !== undefined)
    return { from: request.helixAngle, to: request.helixAngle, usual: request.helixAngle };
  const range = freeHelix[request.gearType];
  if (request.faceWidth === undefined) return range;
  // ε_β = 1 with a little to spare, to the next whole degree.
  const width = request.faceWidth / (request.gearType === 'double-helical' ? 2 : 1);
  const sine = (1.02 * Math.PI * m) / width;
  const smooth = sine >= 1 ? range.to : Math.ceil(Math.asin(sine) / degrees) * degrees;
  return { ...range, usual: Math.min(Math.max(smooth, range.from), range.usual + 5 * degrees) };
}

function shiftRefusal(gear: GearSpec, mate: GearSpec, sum: number): Refusal {
  const [range1, range2] = [shiftRange(gear), shiftRange(mate)];
  const [least, most] = [range1[0] + range2[0], range1[1] + range2[1]];
  const miss = Math.max(least - sum, sum - most);
  return {
    stage: 2,
    code: 'profile-shift-out-of-range',
    miss,
    message: `${named([gear.teeth, mate.teeth], gear.normalModule)} would need a profile shift sum of ${Number(sum.toFixed(3))}; their teeth bear ${Number(least.toFixed(3))} to ${Number(most.toFixed(3))}.`,
    remedy: 'Ask for more teeth, a smaller pressure angle or another centre distance.',
    parameters: ['profileShift', 'teeth', 'centreDistance'],
  };
}

function sizeRefusal(
  request: PairRequest,
  pair: readonly [GearSpec, GearSpec],
  distance: number,
): Refusal | null {
  const { largestDiameter, largestCentreDistance } = request;
  const across = Math.max(...pair.map((spec) => gearGeometry(spec).tipDiameter));
  const what = named([pair[0].teeth, pair[1].teeth], pair[0].normalModule);
  if (largestDiameter !== undefined && across > largestDiameter + 1e-9) {
    return {
      stage: 3,
      code: 'too-large-across',
      miss: across / largestDiameter - 1,
      message: `Space of ${mm(largestDiameter)} across: the smallest that is otherwise right, ${what}, is ${mm(across)} across the tips, ${mm(across - largestDiameter)} too much.`,
      remedy: `Make room for ${mm(across)}, or allow a smaller module, fewer teeth or a smaller ratio.`,
      parameters: ['largestDiameter'],
    };
  }
  if (largestCentreDistance !== undefined && distance > largestCentreDistance + 1e-9) {
    return {
      stage: 3,
      code: 'centres-too-far',
      miss: distance / largestCentreDistance - 1,
      message: `Centre distance up to ${mm(largestCentreDistance)}: the closest that is otherwise right, ${what}, runs at ${mm(distance)}, ${mm(distance - largestCentreDistance)} too much.`,
      remedy: `Allow ${mm(distance)}, a smaller module or fewer teeth.`,
      parameters: ['largestCentreDistance'],
    };
  }
  return null;
}
