import { type GatingSettings, mostGates } from '../../foundry/gating/index.js';
import type { GatingPlan } from '../../foundry/plans.js';
import type { FreezePlan } from '../plans.js';
import { lateCodes } from './late-findings.js';

/** A change of the gating to calculate again with. */
export interface RemedyTrial {
  /** In words, for example `sprue from 9.2 mm`. */
  readonly name: string;
  /** Codes of the findings that it may mend. */
  readonly mends: readonly string[];
  readonly settings: Partial<GatingSettings>;
}

/** How far a setting is moved in one trial. Common practice, no source. */
const steps = { sprue: 1.15, modulus: 1.25, pour: 0.75, vent: 1.5, head: 20, cup: 1.25 } as const;

const round = (value: number, digits: number): number => Number(value.toFixed(digits));

/** What of the gating's settings to try for a plan's findings, most likely first; none where none is mechanical. */
export function remediesFor(
  plan: Pick<FreezePlan, 'findings'>,
  gating: Pick<GatingPlan, 'gates' | 'sprue' | 'cup' | 'fill' | 'vents'>,
  settings: GatingSettings,
): readonly RemedyTrial[] {
  const found = new Set(plan.findings.map((f) => f.code));
  return trials(gating, settings)
    .map((t) => ({ ...t, mends: t.mends.filter((code) => found.has(code)) }))
    .filter((t) => t.mends.length > 0);
}

function trials(
  { gates, sprue, cup, fill, vents }: Parameters<typeof remediesFor>[1],
  settings: GatingSettings,
): readonly RemedyTrial[] {
  if (gates.length === 0) return [];
  const { atGate, inCasting, noWay } = lateCodes;
  const filling = ['may-not-fill', 'cavity-not-reached'];
  const bar = Math.min(...gates.map((g) => g.runner?.diameter ?? sprue.bottomDiameter));
  const wider = round(bar * steps.sprue, 2);
  const ratio = round(settings.modulusRatio * steps.modulus, 2);
  const pour = round(fill.pourTime * steps.pour, 1);
  const vent = round(Math.max(settings.ventLeastDiameter, ...vents.map((v) => v.diameter)) * steps.vent, 2);
  const cupFrom = round(Math.max(settings.cupLeastDiameter, cup.topDiameter) * steps.cup, 1);
  const more = gates.length + 1;
  return [
    {
      name: `sprue or runners from ${wider} mm`,
      mends: [atGate, inCasting],
      settings: { leastSprueDiameter: wider },
    },
    { name: `modulus ratio ${ratio}`, mends: [atGate], settings: { modulusRatio: ratio } },
    {
      name: `cup from ${cupFrom} mm`,
      mends: [atGate],
      settings: {
        cupLeastDiameter: cupFrom,
        ...(settings.cupLargestDiameter === null
          ? {}
          : { cupLargestDiameter: Math.max(cupFrom, settings.cupLargestDiameter) }),
      },
    },
    ...(more <= mostGates
      ? [{ name: `${more} gates`, mends: [inCasting, noWay, atGate], settings: { gates: more } }]
      : []),
    ...(pour > 0 ? [{ name: `pour in ${pour} s`, mends: filling, settings: { pourTime: pour } }] : []),
    {
      name: `vents from ${vent} mm`,
      mends: filling,
      settings: {
        ventLeastDiameter: vent,
        ventLargestDiameter: Math.max(vent, settings.ventLargestDiameter),
      },
    },
    {
      name: `${settings.leastHead + steps.head} mm of head`,
      mends: filling,
      settings: { leastHead: settings.leastHead + steps.head },
    },
  ];
}
