import { type Finding, note, warn } from '../../part/finding.js';
import type { GatingPlan } from '../plans.js';
import { circleDiameter, columnPressure, taperRatio } from './choke.js';
import { type Design, type Frame, fillFlow, isRecessed } from './design.js';
import { checkFedGates, judgeGates } from './fed-gates.js';
import { ringModulus } from './freezing.js';
import { gateRoom } from './gate-size.js';
import { junctionTooNarrow } from './junction-too-narrow.js';
import { placesWanted } from './places-wanted.js';
import { edgeMargin } from './sprue.js';
import { type Vent, ventBackPressure } from './vents.js';

/** Code of the finding on reach: a note, since the limit is judgement, yet a rule to meet where more gates can. */
export const farFeed = 'feeds-too-far';

/** Slack for "met": well under what anyone can print or measure. */
const slack = 1e-6;

const mm = (value: number): string => `${value.toFixed(1)} mm`;
const square = (value: number): string => `${value.toFixed(0)} mm²`;
const cubic = (value: number): string => `${(value / 1000).toFixed(1)} cm³`;
const speed = (value: number): string => `${(value / 1000).toPrecision(2)} m/s`;

/** The rules that the plan does not meet, each with what to change. */
export const checkGating = (
  plan: GatingPlan,
  design: Design,
  frame: Frame,
  vents: readonly Vent[],
  leftOut: ReadonlySet<number>,
): readonly Finding[] => {
  const fed = judgeGates(design, frame);
  return [
    ...(fed
      ? checkFedGates(fed, design, frame)
      : [
          ...checkFilling(plan, design, frame),
          ...checkTaper(plan, frame),
          ...checkFeeding(plan, design, frame),
        ]),
    ...checkFeed(plan, frame),
    ...checkVents(plan, design, frame, vents, leftOut),
  ];
};

const checkFilling = (plan: GatingPlan, design: Design, frame: Frame): readonly Finding[] => {
  const { entry, fill, gates } = plan;
  const findings: Finding[] = [];
  const where = gates.length === 1 ? `gate at ${gates[0]?.name}` : `gates at ${namesOf(plan)}`;
  const wantedFlow = fillFlow(frame.input.casting.mass, frame);
  /** Across a place that offers each gate its share of `area`. */
  const across = (area: number): string =>
    `${mm(circleDiameter(area / gates.length + (Math.PI / 4) * (gates[0]?.innerDiameter ?? 0) ** 2) + 2 * edgeMargin)} across`;
  if (fill.pourTime > frame.longestPour * (1 + slack)) {
    const places =
      gates.length === 1 ? across(design.chokeArea) : `${mm(Math.max(...placesWanted(frame)))} across`;
    const ownFlow = design.gates.reduce((sum, g) => sum + g.flow, 0);
    if (gates.length > 1 && ownFlow >= wantedFlow * (1 - slack))
      findings.push(junctionTooNarrow(design, frame, fill.pourTime, `Give the place ${places} or more`));
    else
      findings.push(
        warn(
          'gate-too-narrow',
          `The ${where} ${gates.length === 1 ? 'lets' : 'let'} the casting fill in ${fill.pourTime.toFixed(1)} s; it should take at most ${frame.longestPour.toFixed(1)} s.`,
          `Give the place ${places} or more, or pour hotter into a hotter flask.`,
        ),
      );
  }
  if (entry.velocity > entry.velocityLimit * (1 + slack)) {
    const wanted = design.gates.reduce((sum, g) => sum + g.wantedArea, 0);
    const now = Math.min(...frame.places.map((p) => gateRoom(p).outer)) + 2 * edgeMargin;
    findings.push(
      warn(
        'gate-velocity',
        `Metal enters at ${speed(entry.velocity)} with the cup kept full; over ${speed(entry.velocityLimit)} its film folds in.`,
        `Give the gate place ${across(wanted)} (now ${mm(now)}), or pour no faster than ${((entry.velocityLimit * entry.area * frame.input.metal.liquidDensity) / 1000).toFixed(2)} kg/s.`,
      ),
    );
  }
  return findings;
};

const namesOf = (plan: GatingPlan): string => [...new Set(plan.gates.map((g) => g.name))].join(' and ');

const checkTaper = (plan: GatingPlan, frame: Frame): readonly Finding[] => {
  const { sprue, cup } = plan;
  const full = sprue.bottomDiameter * Math.sqrt(taperRatio(cup.depth, sprue.length + cup.depth));
  if (!isRecessed(frame) || sprue.topDiameter >= full * (1 - slack)) return [];
  return [
    note(
      'sprue-taper',
      `The sprue stands in a recess and is ${mm(sprue.topDiameter)} at the top; a full stream tapers from ${mm(full)}.`,
      'Keep the cup full from the start, or give the gate place more room.',
    ),
  ];
};

const checkFeeding = (plan: GatingPlan, design: Design, frame: Frame): readonly Finding[] => {
  const { gates, fill } = plan;
  const findings: Finding[] = [];
  if (fill.modulusRatio < fill.modulusRatioLimit * (1 - slack)) {
    findings.push(
      warn(
        'sprue-freezes-early',
        `The ${gates.length === 1 ? 'sprue' : 'thinnest runner'}'s modulus is ${fill.modulusRatio.toFixed(2)} of the casting's; it should be ${fill.modulusRatioLimit} to feed it.`,
        `${(frame.settings.gates ?? 1) > 1 ? 'Ask for fewer gates, or give' : 'Give'} the gate place ${mm(design.modulusDiameter + 2 * edgeMargin)} across or more, or make the casting's thick places thinner.`,
      ),
    );
  }
  if (fill.reach !== undefined && fill.reach > fill.reachLimit * (1 + slack)) {
    findings.push(
      note(
        farFeed,
        `Metal from ${namesOf(plan)} has to feed ${mm(fill.reach)} through the casting; more than ${mm(fill.reachLimit)} cannot be counted on at its thickness.`,
        'Name flat gate places farther apart, make the casting thicker towards its gates, or accept pin-holes far from them.',
      ),
    );
  }
  for (const gate of gates) {
    const ring = ringModulus(gate.innerDiameter, gate.outerDiameter);
    if (!gate.coversCore || ring >= fill.castingModulus * (1 - slack)) continue;
    findings.push(
      note(
        'gate-ring-freezes-early',
        `The ring of metal round the cored hole has a modulus of ${mm(ring)}, the casting ${mm(fill.castingModulus)}: it may close before the casting is fed.`,
        'Cast the hole solid and drill it, or give the hub a thicker wall.',
      ),
    );
  }
  return findings;
};

/** What cup and sprue hold, for all. */
const checkFeed = (plan: GatingPlan, frame: Frame): readonly Finding[] => {
  const { fill } = plan;
  const findings: Finding[] = [];
  if (fill.feedSupply < fill.feedDemand * (1 - slack)) {
    findings.push(
      warn(
        'feed-short',
        `The casting asks for ${cubic(fill.feedDemand)} while it freezes; cup and sprue can give ${cubic(fill.feedSupply)}.`,
        'Allow a wider cup (cupLargestDiameter).',
        'cupLargestDiameter',
      ),
    );
  }
  const held = Math.min(
    frame.settings.cupSeconds * fill.flow,
    frame.settings.cupShare * frame.input.casting.volume,
  );
  if (plan.cup.volume < held * (1 - slack)) {
    findings.push(
      warn(
        'cup-small',
        `The cup holds ${cubic(plan.cup.volume)}; it should hold ${cubic(held)}.`,
        'Allow a wider cup (cupLargestDiameter).',
        'cupLargestDiameter',
      ),
    );
  }
  return findings;
};

/** Back pressure, as a share of the metal's own, under which short vents hardly slow the metal. Common practice, no source. */
const harmless = 0.1;

const checkVents = (
  plan: GatingPlan,
  design: Design,
  frame: Frame,
  vents: readonly Vent[],
  leftOut: ReadonlySet<number>,
): readonly Finding[] => {
  const { settings, input } = frame;
  const findings: Finding[] = [];
  frame.vents.forEach((place, i) => {
    if (!leftOut.has(i)) return;
    const small = place.footDiameter < settings.ventLeastDiameter;
    findings.push(
      warn(
        small ? 'vent-place-too-small' : 'vent-left-out',
        small
          ? `${place.name} takes a vent of ${mm(place.footDiameter)}; the smallest is ${mm(settings.ventLeastDiameter)}.`
          : `No vent fits at ${place.name}: it would stand within ${mm(settings.clearance)} of the sprue or another vent.`,
        small
          ? 'Give a flat place there at least that wide, or prick a vent through the mould by hand.'
          : 'Move the place away from the gate and the other vents, or leave it out if air can rise elsewhere.',
      ),
    );
  });
  const { ventArea, ventAreaLimit, flow } = plan.fill;
  if (ventArea >= ventAreaLimit) return findings;
  const pressure = ventBackPressure(vents, flow);
  const metal = 1e6 * columnPressure(design.effectiveHead, input.metal.liquidDensity);
  const has = `Vents have ${square(ventArea)} in all, the choke ${square(ventAreaLimit)}`;
  const remedy = 'Name more vent places on the part, or wider ones.';
  findings.push(
    pressure <= harmless * metal
      ? note(
          'vent-area',
          `${has}; the air they must let out holds back ${((100 * pressure) / metal).toFixed(1)} % of the metal's pressure, which is little.`,
          remedy,
        )
      : warn(
          'vent-area',
          vents.length === 0
            ? 'The pattern has no vent: air leaves only through the mould.'
            : `${has}; the air they must let out holds back ${((100 * pressure) / metal).toFixed(0)} % of the metal's pressure.`,
          remedy,
        ),
  );
  return findings;
};
