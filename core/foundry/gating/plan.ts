import { type Finding, note, stop } from '../../part/finding.js';
import type { GatingPlan } from '../plans.js';
import { checkInput } from './check-input.js';
import { broken, compare, fewestBroken, moreGatesMayMend } from './compare.js';
import { mostGates, severalSets, singleSets } from './gate-sets.js';
import { modulusDiameterOf } from './gate-size.js';
import { defaultGatingSettings, type GatingInput, type GatingSettings } from './input.js';
import { kindSet, kindSites } from './kinds.js';
import { planFor } from './plan-set.js';
import { alone, wholeTree } from './tree.js';

/**
 * Sizes sprue, cup, gates and vents for a pattern: a sprue on the part's first place that holds one; where that breaks
 * rules, on another place or over runners to several, if that breaks fewer. Pure; never throws. What cannot be met is
 * in `findings`: with a `stop` among them the numbers are all zero and nothing may be built from the plan.
 */
export const planGating = (given: GatingInput): GatingPlan => {
  const settings: GatingSettings = { ...defaultGatingSettings, ...given.settings };
  const wrong = checkInput(given, settings);
  if (wrong.length > 0) return refusedPlan(wrong);
  if (given.kinds !== undefined) {
    const plan = planKinds(given, settings);
    return isBuildable(plan) ? { ...plan, findings: [...plan.findings, ...oneGateEach(settings)] } : plan;
  }
  const input = { ...given, casting: wholeTree(given.casting, (given.tree ?? alone).length) };
  const singles = singleSets(input, settings);
  const several = (counts: readonly number[]) =>
    severalSets(input, settings, counts, modulusDiameterOf(input, settings));
  if (settings.gates !== null && settings.gates > 1) {
    const sets = several([settings.gates]);
    return sets.length === 0
      ? refusedPlan([tooManyGates(input, settings)])
      : compare(sets.map((set) => planFor(set, input, settings)));
  }
  const [first, ...others] = singles;
  if (first === undefined) return refusedPlan([noPlace(input, settings)]);
  const preferred = planFor(first, input, settings);
  if (broken(preferred).length === 0) return preferred;
  const plans = [preferred, ...others.map((set) => planFor(set, input, settings))];
  if (settings.gates === 1 || !plans.every(moreGatesMayMend)) return compare(plans);
  const counts = Array.from({ length: mostGates - 1 }, (_, i) => i + 2);
  const best = fewestBroken(plans);
  const withRunners = several(counts)
    .map((set) => planFor(set, input, settings))
    .filter((plan) => feedsAsWell(plan, best) && fitsUnder(plan, input));
  return compare([...plans, ...withRunners]);
};

/**
 * A tree of several kinds: each pattern on its part's first place that holds a runner. Where that breaks rules, each
 * kind in turn on its other places, where that breaks fewer.
 */
const planKinds = (input: GatingInput, settings: GatingSettings): GatingPlan => {
  const offered = kindSites(input, settings);
  const without = offered.filter(({ sites }) => sites.length === 0);
  if (without.length > 0) return refusedPlan(without.map(({ kind }) => noPlace(kind, settings)));
  let chosen = offered.map(({ sites }) => sites[0]!);
  let best = planFor(kindSet(chosen, input), input, settings);
  if (broken(best).length === 0) return best;
  const plans = [best];
  for (const [i, { sites }] of offered.entries())
    for (const site of sites.slice(1)) {
      const tried = chosen.map((was, k) => (k === i ? site : was));
      const plan = planFor(kindSet(tried, input), input, settings);
      plans.push(plan);
      if (broken(plan).length < broken(best).length) [chosen, best] = [tried, plan];
    }
  return compare(plans);
};

/** More gates may not be bought by runners too thin to feed, where one gate did better. */
const feedsAsWell = ({ fill }: GatingPlan, one: GatingPlan): boolean =>
  fill.modulusRatio >= Math.min(fill.modulusRatioLimit, one.fill.modulusRatio) * (1 - 1e-6);

/** Runners make the mould taller: not beyond what a flask takes. */
const fitsUnder = ({ topHeight }: GatingPlan, { casting, heightLimit }: GatingInput): boolean =>
  topHeight - casting.bottom <= (heightLimit ?? Number.POSITIVE_INFINITY);

/** Whether the plan may be built. */
export const isBuildable = (plan: GatingPlan): boolean => plan.findings.every((f) => f.severity !== 'stop');

const noPlace = (
  input: Pick<GatingInput, 'gates'> & { readonly name?: string },
  settings: GatingSettings,
): Finding => {
  const of = input.name === undefined ? '' : ` of ${input.name}`;
  if (input.gates.length === 0) {
    return stop(
      'no-gate-place',
      input.name === undefined
        ? 'The part names no place where metal may enter.'
        : `No place where metal may enter is named on ${input.name}.`,
      'Give the part at least one flat, upward-facing gate place.',
    );
  }
  const widest = input.gates.reduce((a, b) => (b.outerDiameter > a.outerDiameter ? b : a));
  return stop(
    'gate-place-too-small',
    `No gate place${of} holds a ${of === '' ? 'sprue' : 'runner'}: the widest, ${widest.name}, is ${widest.outerDiameter.toFixed(1)} mm across` +
      (widest.innerDiameter > 0 ? ` round a ${widest.innerDiameter.toFixed(1)} mm hole.` : '.'),
    `Give a flat place at least ${(settings.leastSprueDiameter + 0.4).toFixed(1)} mm across, and 1.6 mm a side wider than a cored hole in it.`,
  );
};

/** More gates are asked for than patterns on a tree of several kinds have. */
const oneGateEach = ({ gates }: GatingSettings): readonly Finding[] =>
  (gates ?? 1) > 1
    ? [
        note(
          'one-gate-each',
          `${gates} gates are asked for; on a tree of several kinds each pattern has one.`,
          'Cast what needs more by itself.',
          'gates',
        ),
      ]
    : [];

const plural = (n: number, one: string): string => `${n} ${one}${n === 1 ? '' : 's'}`;

const tooManyGates = (input: GatingInput, settings: GatingSettings): Finding =>
  stop(
    'too-many-gates',
    `The part has no ${settings.gates} flat places, far enough from one another, that hold a runner.`,
    `Ask for fewer gates, or leave gates out: the part has ${plural(input.gates.length, 'gate place')} and ${plural(input.vents.length, 'vent place')}.`,
    'gates',
  );

const refusedPlan = (findings: readonly Finding[]): GatingPlan => ({
  gates: [],
  entry: { area: 0, velocity: 0, velocityLimit: 0 },
  sprue: {
    at: [0, 0, 0],
    bottomDiameter: 0,
    topDiameter: 0,
    length: 0,
    head: 0,
    chokeArea: 0,
    governedBy: 'largest the place allows',
  },
  cup: { topDiameter: 0, depth: 0, volume: 0, wallAngle: 0 },
  vents: [],
  topHeight: 0,
  fill: {
    pourTime: 0,
    flow: 0,
    castingModulus: 0,
    feederModulus: 0,
    modulusRatio: 0,
    modulusRatioLimit: 0,
    feedDemand: 0,
    feedSupply: 0,
    ventArea: 0,
    ventAreaLimit: 0,
    reachLimit: 0,
  },
  bases: {},
  compared: [],
  findings,
});
