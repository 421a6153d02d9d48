import { type Finding, stop, warn } from '../part/finding.js';
import { pairLimits } from './pair-findings.js';

/** Findings that internal and rack pairs share; each list is empty when all is well. Lengths mm. */

export const mm = (value: number): string => `${Number(value.toFixed(3))} mm`;

export const judgeRatio = (ratio: number): readonly Finding[] =>
  ratio >= 1
    ? []
    : [
        stop(
          'contact-ratio-below-one',
          `The contact ratio is ${ratio.toFixed(2)}: a tooth leaves before the next one takes over.`,
          'Use more teeth, longer teeth or a wider helical face.',
          'teeth',
          'addendum',
          'faceWidth',
        ),
      ];

/** `moves`: the way the axes would have to go, for example "bring the axes closer together". */
export function judgePlay(circumferential: number, moves: string): readonly Finding[] {
  if (circumferential < -1e-6) {
    return [
      stop(
        'teeth-jam',
        `The teeth are ${mm(-circumferential)} too thick for the centre distance: they bind on both flanks.`,
        `Thin the teeth or ${moves}.`,
        'thinning',
        'centreDistance',
      ),
    ];
  }
  if (circumferential > 1e-6) return [];
  return [
    warn(
      'no-backlash',
      'The pair has no backlash: any error makes it bind.',
      `Thin the teeth or ${moves}.`,
      'thinning',
      'centreDistance',
    ),
  ];
}

/** `tips` and `root` in words: "the pinion’s tips", "the ring’s root". */
export function judgeClearance(
  clearance: number,
  normalModule: number,
  tips: string,
  root: string,
): readonly Finding[] {
  if (clearance < -pairLimits.overlap) {
    return [
      stop(
        'tip-root-interference',
        `${tips} run ${mm(-clearance)} into ${root}.`,
        'Shorten the tips or deepen the root.',
        'addendum',
        'dedendum',
      ),
    ];
  }
  const least = pairLimits.tipClearance * normalModule;
  if (clearance >= least - 1e-9) return [];
  return [
    warn(
      'small-tip-clearance',
      `${tips} clear ${root} by ${mm(clearance)}; ${mm(least)} is the least for teeth that are not finished.`,
      'Shorten the tips.',
      'addendum',
    ),
  ];
}

/** The mate's tips against the pinion's fillet: cutting in, or contact that undercut has taken away. */
export function judgePinionFoot(
  code: string,
  tips: string,
  gap: number,
  belowInvolute: number,
  normalModule: number,
): readonly Finding[] {
  const remedy = 'Shorten those tips, or give the pinion more profile shift or more teeth.';
  if (gap < -pairLimits.overlap) {
    return [
      stop(
        code,
        `${tips} cut ${mm(-gap)} into the pinion’s teeth.`,
        remedy,
        'addendum',
        'profileShift',
        'teeth',
      ),
    ];
  }
  if (belowInvolute <= 2e-3 * normalModule) return [];
  return [
    warn(
      'contact-below-involute',
      `${tips} reach ${mm(belowInvolute)} along the line of action below the start of the pinion’s involute; that part of the contact is lost.`,
      remedy,
      'addendum',
      'profileShift',
      'teeth',
    ),
  ];
}

/** `teeth` in words: "the pinion’s teeth". */
export const judgeTip = (thickness: number, normalModule: number, teeth: string): readonly Finding[] =>
  thickness >= pairLimits.tipThickness * normalModule
    ? []
    : [
        warn(
          'thin-tip',
          `${teeth} are ${mm(thickness)} thick at the tip; ${pairLimits.tipThickness} modules (${mm(pairLimits.tipThickness * normalModule)}) is the least usual.`,
          'Use less profile shift, thinning or addendum, or more teeth.',
          'profileShift',
          'thinning',
          'addendum',
        ),
      ];

export const judgeUndercut = (profileShift: number, least: number): readonly Finding[] =>
  profileShift >= least - 1e-9
    ? []
    : [
        warn(
          'undercut',
          `The pinion is undercut: its profile shift is ${Number(profileShift.toFixed(3))}, the least without undercut ${Number(least.toFixed(3))}.`,
          'Use more profile shift or more teeth.',
          'profileShift',
          'teeth',
        ),
      ];
