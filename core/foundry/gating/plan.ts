import type { GatePlace } from '../../part/contract.js';
import { type Finding, note, stop } from '../../part/finding.js';
import type { GatingPlan } from '../plans.js';
import { gatingBases } from './bases.js';
import { checkGating } from './check.js';
import { checkInput } from './check-input.js';
import { circleArea } from './choke.js';
import { type Frame, gateFits, settleDesign } from './design.js';
import { barModulus, modulus } from './freezing.js';
import { defaultGatingSettings, type GatingInput, type GatingSettings } from './input.js';
import { freezingPourTime, handbookPourTime } from './pour-time.js';
import { velocityLimits } from './velocity.js';
import { routeVent, type Vent } from './vents.js';

/**
 * Sizes sprue, cup, gate and vents for a pattern: at the part's first place that holds a sprue, or at another where
 * that one breaks rules which the other meets. Pure; never throws. What cannot be met is in `findings`: with a `stop`
 * among them the numbers are all zero and nothing may be built from the plan.
 */
export const planGating = (input: GatingInput): GatingPlan => {
  const settings: GatingSettings = { ...defaultGatingSettings, ...input.settings };
  const wrong = checkInput(input, settings);
  if (wrong.length > 0) return refusedPlan(wrong);
  const places = input.gates.filter((g) => gateFits(g, settings.leastSprueDiameter));
  const [first, ...others] = places;
  if (first === undefined) return refusedPlan([noPlace(input, settings)]);
  const preferred = planAt(first, input, settings);
  if (broken(preferred).length === 0) return preferred;
  const plans = [preferred, ...others.map((place) => planAt(place, input, settings))];
  const best = plans.reduce((a, b) => (broken(b).length < broken(a).length ? b : a));
  const compared = plans.map((p) => ({ gateName: p.gateName, broken: broken(p) }));
  return {
    ...best,
    compared,
    findings: [...best.findings, ...(plans.length > 1 ? [comparison(best, compared)] : [])],
  };
};

/** Codes of the rules that a plan does not meet. */
const broken = (plan: GatingPlan): readonly string[] =>
  plan.findings.filter((f) => f.severity === 'warn').map((f) => f.code);

/** Why the metal enters where it does. */
const comparison = (best: GatingPlan, compared: GatingPlan['compared']): Finding => {
  const said = ({ gateName, broken: codes }: GatingPlan['compared'][number]): string =>
    `${gateName}: ${codes.length === 0 ? 'none' : [...new Set(codes)].join(', ')}`;
  return note(
    'gate-places-compared',
    `The metal enters at ${best.gateName}. Rules not met, by gate place: ${compared.map(said).join('; ')}.`,
    broken(best).length === 0
      ? 'No change is needed.'
      : 'A wider or further place on the part, as the warnings say, would meet them.',
  );
};

const planAt = (place: GatePlace, input: GatingInput, settings: GatingSettings): GatingPlan => {
  const handbook = handbookPourTime(input.metal, input.casting);
  const freezing = freezingPourTime(input.metal, input.casting, settings.freezingShare);
  const frame: Frame = {
    input,
    settings,
    place,
    longestPour: settings.pourTime ?? Math.min(handbook.time, freezing),
    velocityLimit: settings.velocityLimit ?? velocityLimits[input.metal.family].limit,
  };
  const design = settleDesign(frame);
  const vents: Vent[] = [];
  const leftOut = new Set<number>();
  input.vents.forEach((v, i) => {
    const diameter = design.ventDiameters[i] ?? 0;
    if (diameter === 0) {
      leftOut.add(i);
      return;
    }
    const path = routeVent(v, diameter, design.ventRoom, design.top, vents);
    if (path === null) leftOut.add(i);
    else vents.push({ name: v.name, diameter, path });
  });

  const castingModulus = modulus(input.casting.volume, input.casting.area);
  const feederModulus = barModulus(design.shape.bottomDiameter);
  const plan: GatingPlan = {
    gateName: place.name,
    at: place.at,
    gate: {
      innerDiameter: design.shape.gateInner,
      outerDiameter: design.shape.gateOuter,
      area: design.gateArea,
      velocity: design.flow / design.gateArea,
      velocityLimit: frame.velocityLimit,
      coversCore: design.shape.gateInner > 0,
    },
    sprue: {
      bottomDiameter: design.shape.bottomDiameter,
      topDiameter: design.shape.topDiameter,
      length: design.shape.length,
      head: design.head,
      chokeArea: design.chokeArea,
      governedBy: design.governedBy,
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

const refusedPlan = (findings: readonly Finding[]): GatingPlan => ({
  gateName: '',
  at: [0, 0, 0],
  gate: { innerDiameter: 0, outerDiameter: 0, area: 0, velocity: 0, velocityLimit: 0, coversCore: false },
  sprue: {
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
  },
  bases: {},
  compared: [],
  findings,
});
