import { pairLimits } from './pair-findings.js';
import type { PairRequest } from './pair-request.js';
import type { TriedPair } from './pair-try.js';
import { freeHelix } from './pair-try.js';

/** A pair with its place in the list: low scores first. */
export interface RankedPair extends TriedPair {
  readonly score: number;
  /** z₂ / z₁ as it came out. */
  readonly ratio: number;
  /** Why it stands where it does, in sentences. */
  readonly reasons: readonly string[];
}

export function greatestCommonDivisor(a: number, b: number): number {
  return b === 0 ? a : greatestCommonDivisor(b, a % b);
}

const figure = (value: number, digits = 2): string => {
  const text = String(Number(value.toFixed(digits)));
  return text.startsWith('-') ? `−${text.slice(1)}` : text;
};

/** Weights of the ranking: what a shop weighs, set by judgement (common practice, no source). */
export function rankPair(request: PairRequest, pair: TriedPair): RankedPair {
  const { gear, mate, facts, module, findings } = pair;
  const reasons: string[] = [];
  let score = 0;
  const weigh = (penalty: number, reason?: string) => {
    score += penalty;
    if (reason) reasons.push(reason);
  };

  const common = greatestCommonDivisor(gear.teeth, mate.teeth);
  weigh(
    common === 1 ? 0 : 1.5 + 0.5 * Math.log2(common),
    common === 1
      ? `A hunting tooth: ${gear.teeth} and ${mate.teeth} share no factor, so every tooth meets every other and wear evens out.`
      : `No hunting tooth: ${gear.teeth} and ${mate.teeth} share the factor ${common}, so the same teeth meet every ${mate.teeth / common} turns of gear 1.`,
  );
  const ratio = mate.teeth / gear.teeth;
  if (request.ratio !== undefined && request.teeth === undefined) {
    const off = ratio / request.ratio - 1;
    const tolerance = request.ratioTolerance ?? usualRatioTolerance;
    weigh(
      tolerance > 0 ? (1.5 * Math.abs(off)) / tolerance : 0,
      Math.abs(off) < 1e-12
        ? `The ratio is ${figure(ratio, 4)} exactly.`
        : `The ratio is ${figure(ratio, 4)}, ${figure(Math.abs(off) * 100)} % ${off > 0 ? 'above' : 'below'} the ${figure(request.ratio, 4)} asked for.`,
    );
  }
  if (module.series === 'II')
    weigh(1.5, `Module ${module.module} is of ISO 54 series II, the second choice.`);
  else if (module.series === 'I') weigh(0, `Module ${module.module} is of ISO 54 series I.`);
  else if (module.series === 'DP') weigh(0, `Diametral pitch ${module.diametralPitch}.`);
  // Small teeth fill and finish badly as castings.
  weigh(2 * Math.max(0, 2 - module.module));

  const sum = gear.profileShift + mate.profileShift;
  // A negative sum thins the feet of the teeth.
  weigh(sum < 0 ? -2 * sum : sum);
  const shifts = `x ${figure(gear.profileShift, 3)} and ${figure(mate.profileShift, 3)}`;
  const how = {
    reference: 'The reference centre distance is the one asked for.',
    helix: `A helix angle of ${figure((gear.helixAngle * 180) / Math.PI, 4)}° gives the centre distance exactly, with no sum of profile shifts.`,
    shift: `A profile shift sum of ${figure(sum, 3)} gives the centre distance exactly.`,
    'helix and shift': `A helix angle of ${figure((gear.helixAngle * 180) / Math.PI, 3)}° and a profile shift sum of ${figure(sum, 3)} give the centre distance exactly.`,
    free: `The centre distance comes to ${figure(facts.centreDistance, 3)} mm.`,
  }[pair.by];
  weigh(0, how);
  if (gear.profileShift !== 0 || mate.profileShift !== 0) {
    const split = {
      'balanced-sliding': `Profile shift split for equal sliding at both roots: ${shifts}, specific sliding ${figure(facts.gear.slidingAtRoot, 1)} and ${figure(facts.mate.slidingAtRoot, 1)}.`,
      'equal-strength': `Profile shift split for equal Lewis factors: ${shifts}.`,
      'no-undercut': `Profile shift as even as leaves neither gear undercut: ${shifts}.`,
    }[request.split ?? 'balanced-sliding'];
    weigh(0, split);
  }
  if (request.gearType !== 'spur' && request.helixAngle === undefined) {
    weigh((Math.abs(gear.helixAngle - freeHelix[request.gearType].usual) * 180) / Math.PI / 10);
  }

  const pinion = Math.min(gear.teeth, mate.teeth);
  weigh(0.3 * Math.max(0, 17 - pinion) + 0.05 * Math.max(0, pinion - 24));
  if (request.faceWidth !== undefined) {
    // Cast gears are usually 6 to 12 modules wide (common practice, no source).
    const wide = request.faceWidth / gear.normalModule;
    weigh(2 * Math.max(0, Math.log(6 / wide), Math.log(wide / 12)));
  }
  const total = facts.totalContactRatio;
  weigh(
    3 * Math.max(0, 1.4 - (total ?? facts.contactRatio)),
    `Contact ratio ε_α ${figure(facts.contactRatio)}${total === null || gear.helixAngle === 0 ? '' : `, ε_β ${figure(facts.overlapRatio ?? 0)}, ε_γ ${figure(total)}`}.`,
  );
  const worst = Math.min(facts.gear.slidingAtRoot, facts.mate.slidingAtRoot);
  weigh(0.5 * Math.min(4, Math.max(0, -worst - pairLimits.sliding / 2)));
  for (const finding of findings) weigh(finding.severity === 'warn' ? 2.5 : 0.3, finding.message);
  return { ...pair, score, ratio, reasons };
}

/** Relative tolerance of a ratio when none is asked for. */
export const usualRatioTolerance = 0.02;
