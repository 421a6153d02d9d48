import { type Finding, note } from '../../part/finding.js';
import type { GatingPlan } from '../plans.js';
import { farFeed } from './check.js';

/** The rules as the comparison names them. */
const ruleNames: Readonly<Record<string, string>> = {
  'gate-too-narrow': 'fills too slowly',
  'junction-too-narrow': 'the runners choke where they meet',
  'gate-velocity': 'metal enters too fast',
  'sprue-freezes-early': 'sprue freezes before the casting',
  [farFeed]: 'feeds too far',
  'feed-short': 'too little feed metal',
  'cup-small': 'cup too small',
  'vent-area': 'vents too narrow',
  'vent-left-out': 'a vent left out',
  'vent-place-too-small': 'a vent place too small',
};

/** Rules that metal from more places may meet where one gate does not. */
const mendable = ['gate-too-narrow', 'gate-velocity', 'sprue-freezes-early', farFeed];

/** Codes of the rules that a plan does not meet. */
export const broken = (plan: GatingPlan): readonly string[] =>
  plan.findings.filter((f) => f.severity === 'warn' || f.code === farFeed).map((f) => f.code);

/** The first of the plans that break fewest rules. */
export const fewestBroken = (plans: readonly GatingPlan[]): GatingPlan =>
  plans.reduce((a, b) => (broken(b).length < broken(a).length ? b : a));

/** Whether the plan breaks such a rule. */
export const moreGatesMayMend = (plan: GatingPlan): boolean =>
  broken(plan).some((code) => mendable.includes(code));

/** The best of the plans, with what was compared. */
export const compare = (plans: readonly GatingPlan[]): GatingPlan => {
  const best = fewestBroken(plans);
  const compared = plans.map((p) => ({ gates: p.gates.map((g) => g.name), broken: broken(p) }));
  return {
    ...best,
    compared,
    findings: [...best.findings, ...(plans.length > 1 ? [comparison(best, compared)] : [])],
  };
};

/** Why the metal enters where it does. */
const comparison = (best: GatingPlan, compared: GatingPlan['compared']): Finding => {
  const together = (names: readonly string[]): string => [...new Set(names)].join(' with ');
  const said = ({ gates, broken: codes }: GatingPlan['compared'][number]): string =>
    `${together(gates)}: ${codes.length === 0 ? 'all rules met' : [...new Set(codes)].map((c) => ruleNames[c] ?? c).join(', ')}`;
  return note(
    'gate-places-compared',
    `The metal enters at ${together(best.gates.map((g) => g.name))}. What was compared: ${compared.map(said).join('; ')}.`,
    broken(best).length === 0
      ? 'No change is needed.'
      : 'A wider or further place on the part, as the warnings say, would meet them.',
  );
};
