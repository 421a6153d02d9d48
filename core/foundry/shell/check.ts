/** What can go wrong with a shell. */
import { type Finding, note, warn } from '../../part/finding.js';
import { heavyMould } from '../flask-loads.js';
import type { ShellCoats } from './investment.js';
import type { ShellInput } from './plan.js';
import type { ShellPlan } from './plans.js';

/** mm: narrowest gap that two coats on both walls go into; and that the prime coat goes into. */
export const fullGap = ({ prime, backup }: ShellCoats): number => 2 * (prime.thickness + backup.thickness);
export const leastGap = ({ prime }: ShellCoats): number => 2 * prime.thickness;

/** Findings of one shell. */
export function checkShell(
  plan: Omit<ShellPlan, 'findings'>,
  { investment, narrowestGap, vents }: Pick<ShellInput, 'investment' | 'narrowestGap' | 'vents'>,
): readonly Finding[] {
  const { stress, mass } = plan;
  const { coats } = investment;
  const mm = (x: number): string => String(Math.round(x * 10) / 10);
  return [
    ...(stress.greatest > stress.allowed
      ? [
          warn(
            'shell-weak',
            `Even ${plan.coats} coats (${mm(plan.thickness)} mm) are bent by ${stress.greatest.toFixed(1)} MPa ${stress.flat > 0 ? `over a flat ${mm(stress.flat)} mm wide` : 'round the pattern'}; ${stress.allowed.toFixed(1)} MPa is what a fired shell may be trusted with.`,
            'Bed it to the cup in dry sand, rammed round it; lay stainless wire or ribs of shell over the flat between coats; shorten the sprue.',
            'investment',
          ),
        ]
      : []),
    ...gapFindings(coats, narrowestGap, mm),
    ...(vents === 0
      ? [
          warn(
            'shell-one-opening',
            'The cup is the only opening: melting plastic and its gas have one way, and no air comes through to burn the rest.',
            'Drill or leave a 3 mm hole at the end farthest from the cup, and close it with refractory paste after the fire.',
          ),
        ]
      : []),
    ...heavyMould('shell', mass.fired, mass.poured),
  ];
}

function gapFindings(
  coats: ShellCoats,
  gap: number | undefined,
  mm: (x: number) => string,
): readonly Finding[] {
  if (gap === undefined || gap >= fullGap(coats)) return [];
  if (gap < leastGap(coats))
    return [
      warn(
        'shell-gap-bridged',
        `A gap of ${mm(gap)} mm is narrower than the prime coats of its two walls (${mm(leastGap(coats))} mm): slurry and grain bridge it and leave a void, which fills with metal.`,
        'Close the gap in the pattern and cut it after casting, or put a ready-made ceramic core in it, or use a block investment.',
        'investment',
      ),
    ];
  return [
    note(
      'shell-gap-narrow',
      `A gap of ${mm(gap)} mm is too narrow for two stuccoed coats on both walls (${mm(fullGap(coats))} mm).`,
      'Brush the prime slurry into it and blow out bubbles, use the finest grain, dry it two to three times as long, and fill what is left with slurry.',
      'investment',
    ),
  ];
}
