import { type Finding, note } from '../../part/finding.js';
import type { GateSize, GatingPlan } from '../plans.js';
import { gatingBases } from './bases.js';
import { checkGating } from './check.js';
import { circleArea } from './choke.js';
import { type Design, type Frame, settleDesign } from './design.js';
import { judgeGates } from './fed-gates.js';
import { barModulus, modulus } from './freezing.js';
import type { GateSet } from './gate-sets.js';
import { gateFits } from './gate-size.js';
import type { GatingInput, GatingSettings } from './input.js';
import { named } from './kinds.js';
import { freezingPourTime, handbookPourTime } from './pour-time.js';
import { reachLimit } from './reach.js';
import { seatOf } from './sprue.js';
import { velocityLimits } from './velocity.js';
import { routeVent, type Vent } from './vents.js';

/** Everything of a gating with its metal entering at the places of the set. */
export const planFor = (set: GateSet, input: GatingInput, settings: GatingSettings): GatingPlan => {
  const handbook = handbookPourTime(input.metal, input.casting);
  const freezing = freezingPourTime(input.metal, input.casting, settings.freezingShare);
  const frame: Frame = {
    input,
    settings,
    places: set.places,
    vents: set.vents,
    ...(set.served === undefined ? {} : { served: set.served }),
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

  const fed = judgeGates(design, frame);
  const castingModulus = fed ? fed.starved.modulus : modulus(input.casting.volume, input.casting.area);
  const thinnestBar = fed
    ? fed.starved.gate
    : design.gates.reduce((a, b) => (b.diameter < a.diameter ? b : a));
  const feederModulus = barModulus(thinnestBar.diameter);
  const reach = fed ? fed.farthest?.reach : set.reach;
  const plan: GatingPlan = {
    gates: gateSizes(design),
    entry: {
      area: design.gateArea,
      velocity: fed ? fed.fastest : design.flow / design.gateArea,
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
      pourTime: Math.max(
        frame.longestPour,
        input.casting.mass / input.metal.liquidDensity / design.flow,
        fed?.slowest ?? 0,
      ),
      flow: design.flow,
      castingModulus,
      feederModulus,
      modulusRatio: feederModulus / castingModulus,
      modulusRatioLimit: settings.modulusRatio,
      feedDemand: design.feedDemand,
      feedSupply: design.feedSupply,
      ventArea: vents.reduce((sum, v) => sum + circleArea(v.diameter), 0),
      ventAreaLimit: design.chokeArea,
      ...(reach === undefined ? {} : { reach }),
      reachLimit: fed?.farthest?.reachLimit ?? reachLimit(input.casting, input.metal),
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

const skipped = (input: GatingInput, settings: GatingSettings): readonly Finding[] => {
  const firsts = [input, ...(input.kinds ?? []).map(named)].flatMap(({ gates }) => gates.slice(0, 1));
  return firsts.flatMap((first) =>
    gateFits(first, settings.leastSprueDiameter)
      ? []
      : [
          note(
            'gate-place-skipped',
            `The best gate place, ${first.name}, is too small for a sprue.`,
            `Make the flat place at ${first.name} wider to gate there.`,
          ),
        ],
  );
};
