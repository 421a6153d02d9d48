import { type Finding, note, stop, warn } from '../part/finding.js';
import type { PairFacts, PairMember } from './pair-check.js';
import type { GearSpec } from './spec.js';

/** What the findings of a pair are measured against. */
export const pairLimits = {
  /** ε_γ (ε_α for spur gears): below 1 the drive is not continuous; 1.2 is the usual least (common practice, no source). */
  contactRatio: 1.2,
  /** Tip thickness over m_n, for teeth that are not hardened (ISO 6336-1 context and common practice, from memory). */
  tipThickness: 0.2,
  /** Tip clearance over m_n: half of what ISO 53 profile A gives (common practice, no source). */
  tipClearance: 0.12,
  /** Specific sliding beyond this wears the dedendum fast (common practice, no source). */
  sliding: 5,
  /** mm: overlap of tip and tooth below this is the rounding of the reckoning. */
  overlap: 1e-3,
} as const;

const mm = (value: number): string => `${Number(value.toFixed(3))} mm`;
const sliding = (value: number): string =>
  Number.isFinite(value) ? `${value < 0 ? '−' : ''}${Math.abs(value).toFixed(1)}` : 'without limit';
const figure = (value: number, digits = 2): string => String(Number(value.toFixed(digits)));

/** The pair's findings, worst first within the order of the checks. */
export function judgePair(gear: GearSpec, mate: GearSpec, facts: PairFacts): readonly Finding[] {
  return [
    ...judgeContact(gear, facts),
    ...judgeBacklash(facts),
    ...judgeMember('Gear 1', 'gear 2', gear, facts.gear, facts.mate),
    ...judgeMember('Gear 2', 'gear 1', mate, facts.mate, facts.gear),
  ];
}

function judgeContact(gear: GearSpec, facts: PairFacts): readonly Finding[] {
  const ratio = facts.totalContactRatio ?? facts.contactRatio;
  const spur = gear.helixAngle === 0;
  const symbol = spur ? 'ε_α' : facts.totalContactRatio === null ? 'ε_α (face width not given)' : 'ε_γ';
  if (ratio < 1) {
    return [
      stop(
        'contact-ratio-below-one',
        `The contact ratio ${symbol} is ${figure(ratio)}: a tooth leaves before the next one takes over.`,
        'Use more teeth, a smaller sum of profile shifts, longer teeth or a wider helical face.',
        'teeth',
        'profileShift',
      ),
    ];
  }
  if (ratio < pairLimits.contactRatio) {
    return [
      warn(
        'low-contact-ratio',
        `The contact ratio ${symbol} is ${figure(ratio)}; at least ${pairLimits.contactRatio} is usual.`,
        'Use more teeth, a smaller sum of profile shifts, longer teeth or a wider helical face.',
        'teeth',
        'profileShift',
      ),
    ];
  }
  return [];
}

function judgeBacklash(facts: PairFacts): readonly Finding[] {
  const { circumferential, centreDistance } = facts.backlash;
  if (circumferential < -1e-6) {
    return [
      stop(
        'teeth-jam',
        `The teeth are ${mm(-circumferential)} too thick for the centre distance: they bind on both flanks.`,
        `Thin the teeth or move the axes at least ${mm(-centreDistance)} apart.`,
        'thinning',
        'centreDistance',
      ),
    ];
  }
  if (circumferential < 1e-6) {
    return [
      warn(
        'no-backlash',
        'The pair has no backlash: any error makes it bind.',
        'Thin the teeth or open the centre distance.',
        'thinning',
        'centreDistance',
      ),
    ];
  }
  return [];
}

function judgeMember(
  name: string,
  otherName: string,
  spec: GearSpec,
  own: PairMember,
  other: PairMember,
): readonly Finding[] {
  const m = spec.normalModule;
  const findings: Finding[] = [];
  if (own.tipClearance < -pairLimits.overlap) {
    findings.push(
      stop(
        'tip-root-interference',
        `${name} runs its tips ${mm(-own.tipClearance)} into the root of ${otherName}.`,
        'Shorten the tips, deepen the mate’s root or open the centre distance.',
        'addendum',
        'dedendum',
        'centreDistance',
      ),
    );
  } else if (own.tipClearance < pairLimits.tipClearance * m - 1e-9) {
    findings.push(
      warn(
        'small-tip-clearance',
        `${name} clears the root of ${otherName} by ${mm(own.tipClearance)}; ${mm(pairLimits.tipClearance * m)} is the least for teeth that are not finished.`,
        'Shorten the tips or open the centre distance.',
        'addendum',
        'centreDistance',
      ),
    );
  }
  if (own.tipGap < -pairLimits.overlap) {
    findings.push(
      stop(
        'tip-fillet-interference',
        `The tip of ${otherName} cuts ${mm(-own.tipGap)} into the fillet of ${name.toLowerCase()}.`,
        `Shorten the tips of ${otherName}, give ${name.toLowerCase()} more profile shift or more teeth.`,
        'addendum',
        'profileShift',
        'teeth',
      ),
    );
  } else if (own.belowInvolute > 2e-3 * m) {
    findings.push(
      warn(
        'contact-below-involute',
        `The tip of ${otherName} reaches ${mm(own.belowInvolute)} along the line of action below the start of the involute of ${name.toLowerCase()} (diameter ${mm(own.formDiameter)}); that part of the contact is lost.`,
        `Shorten the tips of ${otherName} or give ${name.toLowerCase()} more profile shift or more teeth.`,
        'addendum',
        'profileShift',
        'teeth',
      ),
    );
  }
  if (own.undercut) {
    findings.push(
      warn(
        'undercut',
        `${name} is undercut: its profile shift is ${figure(spec.profileShift, 3)}, the least without undercut ${figure(own.minimumProfileShift, 3)}.`,
        `Use a profile shift of at least ${figure(Math.ceil(own.minimumProfileShift * 1000) / 1000, 3)} or more teeth.`,
        'profileShift',
        'teeth',
      ),
    );
  }
  if (own.tipThickness < pairLimits.tipThickness * m) {
    findings.push(
      warn(
        'thin-tip',
        `${name} is ${mm(own.tipThickness)} thick at the tip; ${pairLimits.tipThickness} modules (${mm(pairLimits.tipThickness * m)}) is the least usual.`,
        'Use less profile shift, shorter teeth or more teeth.',
        'profileShift',
        'addendum',
        'teeth',
      ),
    );
  }
  if (own.slidingAtRoot < -pairLimits.sliding) {
    findings.push(
      note(
        'high-sliding',
        `At the root of ${name.toLowerCase()} the specific sliding is ${sliding(own.slidingAtRoot)}, at that of ${otherName} ${sliding(other.slidingAtRoot)}; beyond −${pairLimits.sliding} the flank wears fast.`,
        `Give ${name.toLowerCase()} more profile shift, or shorten the tips of ${otherName}.`,
        'profileShift',
      ),
    );
  }
  return findings;
}
