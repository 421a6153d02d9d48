/** How each gate of a tree of several kinds serves its own pattern. */
import { type Finding, note, warn } from '../../part/finding.js';
import { circleDiameter } from './choke.js';
import { type Design, type Frame, fillFlow } from './design.js';
import { barModulus, modulus, ringModulus } from './freezing.js';
import type { Served } from './gate-sets.js';
import { type GateDesign, gateRoom } from './gate-size.js';
import { junctionTooNarrow } from './junction-too-narrow.js';
import { placesWanted } from './places-wanted.js';
import { reachLimit } from './reach.js';
import { edgeMargin } from './sprue.js';

/** One gate and its pattern. */
export interface FedGate extends Served {
  readonly gate: GateDesign;
  /** V/A of its own pattern, mm. */
  readonly modulus: number;
  /** The runner's over the pattern's. */
  readonly modulusRatio: number;
  /** s, of its pattern alone. */
  readonly pourTime: number;
  /** Through it, mm/s. */
  readonly velocity: number;
  readonly reachLimit: number;
}

/** The gates, and of each rule the one that comes off worst. */
export interface FedGates {
  readonly all: readonly FedGate[];
  /** Of the least modulus ratio. */
  readonly starved: FedGate;
  /** s */
  readonly slowest: number;
  /** mm/s */
  readonly fastest: number;
  /** The one whose metal feeds the farthest of what is allowed; absent where that was not measured. */
  readonly farthest?: FedGate;
}

/** Undefined where all gates serve one kind. */
export const judgeGates = (design: Design, frame: Frame): FedGates | undefined => {
  const { served, input } = frame;
  if (served === undefined) return undefined;
  // The sprue may let through less than the gates would take; they share it.
  const share = design.flow / design.gates.reduce((sum, g) => sum + g.flow, 0);
  const all = design.gates.map((gate, i): FedGate => {
    const { kind, ...rest } = served[i] as Served;
    const own = modulus(kind.casting.volume, kind.casting.area);
    return {
      kind,
      ...rest,
      gate,
      modulus: own,
      modulusRatio: barModulus(gate.diameter) / own,
      pourTime: kind.casting.mass / input.metal.liquidDensity / (share * gate.flow),
      velocity: (share * gate.flow) / gate.area,
      reachLimit: reachLimit(kind.casting, input.metal),
    };
  });
  const reaching = all.filter((g) => g.reach !== undefined);
  const part = (g: FedGate): number => (g.reach ?? 0) / g.reachLimit;
  return {
    all,
    starved: all.reduce((a, b) => (b.modulusRatio < a.modulusRatio ? b : a)),
    slowest: Math.max(...all.map((g) => g.pourTime)),
    fastest: Math.max(...all.map((g) => g.velocity)),
    ...(reaching.length > 0 ? { farthest: reaching.reduce((a, b) => (part(b) > part(a) ? b : a)) } : {}),
  };
};

/** Slack for "met": well under what anyone can print or measure. */
const slack = 1 + 1e-6;

const mm = (value: number): string => `${value.toFixed(1)} mm`;
const speed = (value: number): string => `${(value / 1000).toPrecision(2)} m/s`;

/** The rules that gates of single patterns do not meet, once for each kind, each with what to change. */
export const checkFedGates = (
  { all, slowest }: FedGates,
  design: Design,
  frame: Frame,
): readonly Finding[] => {
  const { settings, longestPour, velocityLimit } = frame;
  const wanted = slowest > longestPour * slack ? placesWanted(frame) : [];
  /** A place for this gate that serves. */
  const wider = (fed: FedGate): string =>
    `${fed.kind.name} a place ${mm(wanted[all.indexOf(fed)] ?? 0)} across or more`;
  /** Whether its own bar and ring let its pattern fill in time. */
  const passes = (fed: FedGate): boolean => fillFlow(fed.kind.casting.mass, frame) <= fed.gate.flow * slack;
  // All gates of a kind are alike.
  const kinds = all.filter((g, i) => all.findIndex((other) => other.kind === g.kind) === i);
  const narrow = kinds.filter((fed) => fed.gate.place.outerDiameter < (wanted[all.indexOf(fed)] ?? 0));
  const widerPlaces = `Give ${narrow.map(wider).join(', ')}`;
  const choked = kinds.filter((fed) => fed.pourTime > longestPour * slack && passes(fed));
  const atJunction =
    choked.length === 0
      ? []
      : [junctionTooNarrow(design, frame, Math.max(...choked.map((fed) => fed.pourTime)), widerPlaces)];
  return [
    ...atJunction,
    ...kinds.flatMap((fed): readonly Finding[] => {
      const { kind, gate } = fed;
      const across = (area: number): string =>
        mm(circleDiameter(area + (Math.PI / 4) * gate.place.innerDiameter ** 2) + 2 * edgeMargin);
      const findings: Finding[] = [];
      if (fed.pourTime > longestPour * slack && !passes(fed))
        findings.push(
          warn(
            'gate-too-narrow',
            `The gate at ${gate.place.name} lets its casting fill in ${fed.pourTime.toFixed(1)} s; all of the tree should fill in at most ${longestPour.toFixed(1)} s.`,
            `${widerPlaces}, or stand it on a tree of its own.`,
          ),
        );
      if (fed.velocity > velocityLimit * slack)
        findings.push(
          warn(
            'gate-velocity',
            `Metal enters ${kind.name} at ${speed(fed.velocity)} with the cup kept full; over ${speed(velocityLimit)} its film folds in.`,
            `Give the gate place of ${kind.name} ${across(gate.wantedArea)} across (now ${mm(gateRoom(gate.place).outer + 2 * edgeMargin)}), or pour more slowly.`,
          ),
        );
      if (fed.modulusRatio * slack < settings.modulusRatio)
        findings.push(
          warn(
            'sprue-freezes-early',
            `The runner's modulus is ${fed.modulusRatio.toFixed(2)} of that of ${kind.name}; it should be ${settings.modulusRatio} to feed it.`,
            `Give the gate place of ${kind.name} ${mm(4 * settings.modulusRatio * fed.modulus + 2 * edgeMargin)} across or more, or make its thick places thinner.`,
          ),
        );
      if (fed.reach !== undefined && fed.reach > fed.reachLimit * slack)
        findings.push(
          note(
            'feeds-too-far',
            `Metal from ${gate.place.name} has to feed ${mm(fed.reach)} through the casting; more than ${mm(fed.reachLimit)} cannot be counted on at its thickness.`,
            `Make ${kind.name} thicker towards its gate, cast it by itself with more gates, or accept pin-holes far from it.`,
          ),
        );
      const ring = ringModulus(gate.inner, gate.outer);
      if (gate.inner > 0 && ring * slack < fed.modulus)
        findings.push(
          note(
            'gate-ring-freezes-early',
            `The ring of metal round the cored hole of ${kind.name} has a modulus of ${mm(ring)}, the casting ${mm(fed.modulus)}: it may close before the casting is fed.`,
            'Cast the hole solid and drill it, or give the hub a thicker wall.',
          ),
        );
      return findings;
    }),
  ];
};
