import { maths } from '../maths/maths.js';
import type { LineFacts } from './pair-appraisal.js';
import { appraise } from './pair-appraisal.js';
import { pairLimits } from './pair-findings.js';
import { type PairLoad, pairLoad } from './pair-load.js';
import { type PairRequest, usualRatioTolerance } from './pair-request.js';
import { freeHelix } from './place-on-centres.js';
import type { AnyTriedPair, TriedPair } from './tried-pair.js';

/** Its place in the list: low scores first. */
export interface Rank {
  readonly score: number;
  /** z₂ / z₁ as it came out; null on a rack. */
  readonly ratio: number | null;
  /** Why it stands where it does, in sentences. */
  readonly reasons: readonly string[];
  /** Null where no load was asked about. */
  readonly load: PairLoad | null;
}

export type Ranked<T extends AnyTriedPair> = T & Rank;
export type RankedPair = Ranked<TriedPair>;
export type AnyRankedPair = Ranked<AnyTriedPair>;

export function greatestCommonDivisor(a: number, b: number): number {
  return b === 0 ? a : greatestCommonDivisor(b, a % b);
}

const figure = (value: number, digits = 2): string => {
  const text = String(Number(value.toFixed(digits)));
  return text.startsWith('-') ? `−${text.slice(1)}` : text;
};

type Weigh = (penalty: number, reason?: string) => void;

/** Weights of the ranking: what a shop weighs, set by judgement (common practice, no source). */
export function rankPair<T extends AnyTriedPair>(request: PairRequest, pair: T): Ranked<T> {
  const reasons: string[] = [];
  let score = 0;
  const weigh: Weigh = (penalty, reason) => {
    score += penalty;
    if (reason) reasons.push(reason);
  };
  const facts = appraise(pair);
  weighTeeth(request, pair, weigh);
  weighModule(pair, weigh);
  weighShift(request, pair, facts, weigh);
  weighWidth(request, pair, weigh);
  const load = weighLoad(request, pair, facts, weigh);
  const total = facts.totalContactRatio;
  weigh(
    3 * Math.max(0, 1.4 - total),
    `Contact ratio ε_α ${figure(facts.contactRatio)}${pair.gear.helixAngle === 0 ? '' : `, ε_β ${figure(facts.overlapRatio)}, ε_γ ${figure(total)}`}.`,
  );
  weigh(0.5 * Math.min(4, Math.max(0, -Math.min(...facts.rootSliding) - pairLimits.sliding / 2)));
  for (const finding of [...pair.findings, ...(load?.findings ?? [])])
    weigh(finding.severity === 'warn' ? 2.5 : 0.3, finding.message);
  const ratio = pair.mesh === 'rack' ? null : pair.mate.teeth / pair.gear.teeth;
  return { ...pair, score, ratio, reasons, load };
}

function weighTeeth(request: PairRequest, pair: AnyTriedPair, weigh: Weigh): void {
  const [z1, z2] = [pair.gear.teeth, pair.mate.teeth];
  const pinion = pair.mesh === 'external' ? Math.min(z1, z2) : z1;
  weigh(0.3 * Math.max(0, 17 - pinion) + 0.05 * Math.max(0, pinion - 24));
  if (pair.mesh === 'rack') {
    const { travelPerTurn } = pair.facts;
    const off = request.travelPerTurn === undefined ? 0 : travelPerTurn / request.travelPerTurn - 1;
    weigh(
      request.travelPerTurn === undefined ? 0 : tolerancePenalty(request, off),
      `One turn of the pinion moves the rack ${figure(travelPerTurn, 3)} mm${
        Math.abs(off) < 1e-9
          ? ''
          : `, ${figure(Math.abs(off) * 100)} % ${off > 0 ? 'more' : 'less'} than asked for`
      }.`,
    );
    return;
  }
  const common = greatestCommonDivisor(z1, z2);
  weigh(
    common === 1 ? 0 : 1.5 + 0.5 * maths.log2(common),
    common === 1
      ? `A hunting tooth: ${z1} and ${z2} share no factor, so every tooth meets every other and wear evens out.`
      : `No hunting tooth: ${z1} and ${z2} share the factor ${common}, so the same teeth meet every ${z2 / common} turns of gear 1.`,
  );
  if (request.ratio === undefined || request.teeth !== undefined) return;
  const ratio = z2 / z1;
  const off = ratio / request.ratio - 1;
  weigh(
    tolerancePenalty(request, off),
    Math.abs(off) < 1e-12
      ? `The ratio is ${figure(ratio, 4)} exactly.`
      : `The ratio is ${figure(ratio, 4)}, ${figure(Math.abs(off) * 100)} % ${off > 0 ? 'above' : 'below'} the ${figure(request.ratio, 4)} asked for.`,
  );
}

function tolerancePenalty(request: PairRequest, off: number): number {
  const tolerance = request.ratioTolerance ?? usualRatioTolerance;
  return tolerance > 0 ? (1.5 * Math.abs(off)) / tolerance : 0;
}

function weighModule({ module }: AnyTriedPair, weigh: Weigh): void {
  if (module.series === 'II')
    weigh(1.5, `Module ${module.module} is of ISO 54 series II, the second choice.`);
  else if (module.series === 'I') weigh(0, `Module ${module.module} is of ISO 54 series I.`);
  else if (module.series === 'DP') weigh(0, `Diametral pitch ${module.diametralPitch}.`);
  // Small teeth fill and finish badly as castings.
  weigh(2 * Math.max(0, 2 - module.module));
}

function weighShift(request: PairRequest, pair: AnyTriedPair, facts: LineFacts, weigh: Weigh): void {
  const { gear, mate, mesh } = pair;
  const sum = gear.profileShift + (mesh === 'rack' ? 0 : mate.profileShift);
  // A negative sum thins the feet of external teeth; in a ring it only widens the pressure angle.
  weigh(mesh === 'external' && sum < 0 ? -2 * sum : Math.abs(sum));
  const beta = (gear.helixAngle * 180) / Math.PI;
  const distance = mesh === 'rack' ? 'mounting distance' : 'centre distance';
  const how = {
    reference: `The reference ${distance} is the one asked for.`,
    helix: `A helix angle of ${figure(beta, 4)}° gives the ${distance} exactly, with no sum of profile shifts.`,
    shift: `A profile shift ${mesh === 'rack' ? '' : 'sum '}of ${figure(sum, 3)} gives the ${distance} exactly.`,
    'helix and shift': `A helix angle of ${figure(beta, 3)}° and a profile shift ${mesh === 'rack' ? '' : 'sum '}of ${figure(sum, 3)} give the ${distance} exactly.`,
    free: `The ${distance} comes to ${figure(facts.distance, 3)} mm.`,
  }[pair.by];
  weigh(0, how);
  const shifted = gear.profileShift !== 0 || (mesh !== 'rack' && mate.profileShift !== 0);
  if (shifted) weigh(0, splitReason(request, pair, facts));
  if (request.gearType !== 'spur' && request.helixAngle === undefined) {
    const usual = freeHelix[request.gearType].usual;
    weigh((Math.abs(gear.helixAngle - usual) * 180) / Math.PI / 10);
  }
}

function splitReason(request: PairRequest, pair: AnyTriedPair, { rootSliding }: LineFacts): string {
  const { gear, mate, mesh } = pair;
  if (request.keepMate) return `All of the profile shift is on gear 1: x ${figure(gear.profileShift, 3)}.`;
  const split = request.split ?? 'balanced-sliding';
  const [a, b] = rootSliding;
  if (mesh === 'rack') {
    const why = {
      'balanced-sliding': `to bring the sliding at its root near that at the rack’s, specific sliding ${figure(a, 1)} and ${figure(b, 1)}`,
      'equal-strength': 'to bring its Lewis factor near the rack’s',
      'no-undercut': 'just so far that it is not undercut',
    }[split];
    return `Profile shift of the pinion x ${figure(gear.profileShift, 3)}${pair.by === 'free' ? `, ${why}` : ''}.`;
  }
  const shifts = `x ${figure(gear.profileShift, 3)} and ${figure(mate.profileShift, 3)}`;
  const near = mesh === 'internal' ? 'as near as may be to ' : 'for ';
  return {
    'balanced-sliding': `Profile shift split ${near}equal sliding at both roots: ${shifts}, specific sliding ${figure(a, 1)} and ${figure(b, 1)}.`,
    'equal-strength': `Profile shift split ${near}equal Lewis factors: ${shifts}.`,
    'no-undercut': `Profile shift as even as leaves neither gear undercut: ${shifts}.`,
  }[split];
}

function weighWidth(request: PairRequest, { gear }: AnyTriedPair, weigh: Weigh): void {
  if (request.faceWidth === undefined) return;
  // Cast gears are usually 6 to 12 modules wide (common practice, no source).
  const wide = request.faceWidth / gear.normalModule;
  weigh(2 * Math.max(0, maths.log(6 / wide), maths.log(wide / 12)));
}

/** Teeth that are too weak rank last among the pairs that run, by how much. */
function weighLoad(
  request: PairRequest,
  pair: AnyTriedPair,
  facts: LineFacts,
  weigh: Weigh,
): PairLoad | null {
  if (!request.load) return null;
  const result = pairLoad(
    { ...pair, distance: facts.distance, doubleHelical: request.gearType === 'double-helical' },
    request.load,
  );
  if (!result.ok) return null;
  weigh(result.load.from === 'allowable' ? 0 : 6 * Math.max(0, maths.log(result.load.share)));
  return result.load;
}
