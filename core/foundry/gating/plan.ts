import { type Finding, note, stop } from '../../part/finding.js';
import type { GateSize, GatingPlan } from '../plans.js';
import { gatingBases } from './bases.js';
import { checkGating } from './check.js';
import { checkInput } from './check-input.js';
import { circleArea } from './choke.js';
import { broken, compare, fewestBroken, moreGatesMayMend } from './compare.js';
import { type Design, type Frame, settleDesign } from './design.js';
import { barModulus, modulus } from './freezing.js';
import { type GateSet, mostGates, severalSets, singleSets } from './gate-sets.js';
import { gateFits, modulusDiameterOf } from './gate-size.js';
import { defaultGatingSettings, type GatingInput, type GatingSettings } from './input.js';
import { freezingPourTime, handbookPourTime } from './pour-time.js';
import { reachLimit } from './reach.js';
import { seatOf } from './sprue.js';
import { alone, wholeTree } from './tree.js';
import { velocityLimits } from './velocity.js';
import { routeVent, type Vent } from './vents.js';

/**
 * Sizes sprue, cup, gates and vents for a pattern: a sprue on the part's first place that holds one; where that breaks
 * rules, on another place or over runners to several, if that breaks fewer. Pure; never throws. What cannot be met is
 * in `findings`: with a `stop` among them the numbers are all zero and nothing may be built from the plan.
 */
export const planGating = (given: GatingInput): GatingPlan => {
  const settings: GatingSettings = { ...defaultGatingSettings, ...given.settings };
  const wrong = checkInput(given, settings);
  if (wrong.length > 0) return refusedPlan(wrong);
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

/** More gates may not be bought by runners too thin to feed, where one gate did better. */
const feedsAsWell = ({ fill }: GatingPlan, one: GatingPlan): boolean =>
  fill.modulusRatio >= Math.min(fill.modulusRatioLimit, one.fill.modulusRatio) * (1 - 1e-6);

/** Runners make the mould taller: not beyond what a flask takes. */
const fitsUnder = ({ topHeight }: GatingPlan, { casting, heightLimit }: GatingInput): boolean =>
  topHeight - casting.bottom <= (heightLimit ?? Number.POSITIVE_INFINITY);

const planFor = (set: GateSet, input: GatingInput, settings: GatingSettings): GatingPlan => {
  const handbook = handbookPourTime(input.metal, input.casting);
  const freezing = freezingPourTime(input.metal, input.casting, settings.freezingShare);
  const frame: Frame = {
    input,
    settings,
    places: set.places,
    vents: set.vents,
    longestPour: settings.pourTime ?? Math.min(handbook.time, freezing),
    velocityLimit: settings.velocityLimit ?? velocityLimits[input.metal.family].limit,
  };
  const design = settleDesign(frame);
  const vents: Vent[] = [];
  const leftOut = new Set<number>();
  set.vents.forEach((v, i) => {
    const diameter = design.ventDiameters[i] ?? 0;
    const path = diameter === 0 ? null : routeVent(v, diameter, design.ventRoom, design.top, vents);
    if (path === null) leftOut.add(i);
    else vents.push({ name: v.name, diameter, path, ...seatOf(v) });
  });

  const castingModulus = modulus(input.casting.volume, input.casting.area);
  const thinnestBar = design.gates.reduce((a, b) => (b.diameter < a.diameter ? b : a));
  const feederModulus = barModulus(thinnestBar.diameter);
  const plan: GatingPlan = {
    gates: gateSizes(design),
    entry: {
      area: design.gateArea,
      velocity: design.flow / design.gateArea,
      velocityLimit: frame.velocityLimit,
    },
    sprue: {
      at: design.base,
      bottomDiameter: design.shape.bottomDiameter,
      topDiameter: design.shape.topDiameter,
      length: design.shape.length,
      head: design.head,
      chokeArea: design.chokeArea,
      governedBy: thinnestBar.governedBy,
    },
    cup: design.cup,
    vents,
    topHeight: design.top,
    fill: {
      // A sprue wider than the choke asks for passes more, but needs not be poured faster.
      pourTime: Math.max(frame.longestPour, input.casting.mass / input.metal.liquidDensity / design.flow),
      flow: design.flow,
      castingModulus,
      feederModulus,
      modulusRatio: feederModulus / castingModulus,
      modulusRatioLimit: settings.modulusRatio,
      feedDemand: design.feedDemand,
      feedSupply: design.feedSupply,
      ventArea: vents.reduce((sum, v) => sum + circleArea(v.diameter), 0),
      ventAreaLimit: design.chokeArea,
      ...(set.reach === undefined ? {} : { reach: set.reach }),
      reachLimit: reachLimit(input.casting, input.metal),
    },
    bases: gatingBases(frame, handbook, freezing),
    compared: [],
    findings: [],
  };
  return {
    ...plan,
    findings: [...skipped(input, settings), ...checkGating(plan, design, frame, vents, leftOut)],
  };
};

const gateSizes = ({ gates, runners }: Design): readonly GateSize[] =>
  gates.map((g, i) => {
    const path = runners[i];
    return {
      name: g.place.name,
      at: g.place.at,
      innerDiameter: g.inner,
      outerDiameter: g.outer,
      area: g.area,
      ...seatOf(g.place),
      coversCore: g.inner > 0,
      ...(path === undefined ? {} : { runner: { diameter: g.diameter, path } }),
    };
  });

/** Whether the plan may be built. */
export const isBuildable = (plan: GatingPlan): boolean => plan.findings.every((f) => f.severity !== 'stop');

const skipped = (input: GatingInput, settings: GatingSettings): readonly Finding[] => {
  const [first] = input.gates;
  if (first === undefined || gateFits(first, settings.leastSprueDiameter)) return [];
  return [
    note(
      'gate-place-skipped',
      `The best gate place, ${first.name}, is too small for a sprue.`,
      `Make the flat place at ${first.name} wider to gate there.`,
    ),
  ];
};

const noPlace = (input: GatingInput, settings: GatingSettings): Finding => {
  if (input.gates.length === 0) {
    return stop(
      'no-gate-place',
      'The part names no place where metal may enter.',
      'Give the part at least one flat, upward-facing gate place.',
    );
  }
  const widest = input.gates.reduce((a, b) => (b.outerDiameter > a.outerDiameter ? b : a));
  return stop(
    'gate-place-too-small',
    `No gate place holds a sprue: the widest, ${widest.name}, is ${widest.outerDiameter.toFixed(1)} mm across` +
      (widest.innerDiameter > 0 ? ` round a ${widest.innerDiameter.toFixed(1)} mm hole.` : '.'),
    `Give a flat place at least ${(settings.leastSprueDiameter + 0.4).toFixed(1)} mm across, and 1.6 mm a side wider than a cored hole in it.`,
  );
};

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
