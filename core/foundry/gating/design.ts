import { maths } from '../../maths/maths.js';
import type { GatePlace, VentPlace } from '../../part/contract.js';
import type { Vec3 } from '../../solid/types.js';
import { chokeArea, circleArea, circleDiameter, effectiveHead, fallVelocity, flowThrough } from './choke.js';
import type { RisingPath } from './clearance.js';
import type { Cup } from './cup.js';
import type { Served } from './gate-sets.js';
import { type GateDesign, type GateNeeds, gateRoom, modulusDiameterOf, sizeGate, up } from './gate-size.js';
import type { GatingCasting, GatingInput, GatingSettings } from './input.js';
import { widenForJunction } from './junction.js';
import { halfAlong, junctionDiameter, junctionOf, mouthDepth, runnerLean, runnerPath } from './runners.js';
import {
  flareAngle,
  footHeights,
  neckLength,
  type SprueShape,
  sprueMouth,
  sprueOutline,
  sprueVolume,
} from './sprue.js';
import { sizeSprue } from './sprue-size.js';
import { sizeVents, type VentRoom, ventFootRoom, ventLean, ventNeedsTop } from './vents.js';

/** What does not depend on how high the cup stands. */
export interface Frame {
  readonly input: GatingInput;
  readonly settings: GatingSettings;
  /** One with the sprue on it, or several at runners. */
  readonly places: readonly GatePlace[];
  readonly vents: readonly VentPlace[];
  /** On a tree of several kinds, what each of `places` feeds. */
  readonly served?: readonly Served[];
  /** Longest pour, s. */
  readonly longestPour: number;
  /** mm/s */
  readonly velocityLimit: number;
}

/** Everything sized for a cup level. */
export interface Design {
  readonly top: number;
  /** Over the lowest gate. */
  readonly head: number;
  readonly effectiveHead: number;
  readonly chokeArea: number;
  readonly chokeDiameter: number;
  readonly modulusDiameter: number;
  readonly gates: readonly GateDesign[];
  /** Parallel to `gates`; none where the sprue stands on the gate. */
  readonly runners: readonly RisingPath[];
  /** Through all gates, mm². */
  readonly gateArea: number;
  readonly flow: number;
  /** Bottom of the sprue. */
  readonly base: Vec3;
  readonly cup: Cup;
  readonly shape: SprueShape;
  readonly feedDemand: number;
  readonly feedSupply: number;
  readonly ventRoom: VentRoom;
  /** Parallel to the vent places; 0 where none fits. */
  readonly ventDiameters: readonly number[];
}

/**
 * Where runners meet, the sprue is this much wider than they are, so that it freezes after them: 1 : 1.1 : 1.2 for
 * casting, neck and feeder (R. Wlodawer, Directional Solidification of Steel Castings, from memory).
 */
const overRunner = 1.1;

/** Share of a feeder's volume left for the casting: e V_f = α (V_f + V_c) (Campbell). */
const feedShare = ({ input, settings }: Frame): number =>
  settings.feederEfficiency - Math.max(0, input.metal.freezingContraction);

const lowestGate = ({ places }: Frame): number => Math.min(...places.map((p) => p.at[2]));

/** Whether the sprue stands on a gate that the part stands higher than. */
export const isRecessed = ({ input, places }: Frame): boolean =>
  places.length === 1 && input.casting.top > places[0]!.at[2] + 0.01;

/** Mean head on a gate at height `z` while a casting fills, the cup's level at `top`, mm. */
const actingHead = (casting: Pick<GatingCasting, 'top' | 'bottom'>, z: number, top: number): number => {
  const height = casting.top - casting.bottom;
  return effectiveHead(top - z, Math.min(height, Math.max(0, casting.top - z)), height);
};

/** What a casting takes in to fill in the longest pour, mm³/s. */
export const fillFlow = (
  mass: number,
  { input, longestPour }: Pick<Frame, 'input' | 'longestPour'>,
): number => mass / input.metal.liquidDensity / longestPour;

/**
 * What must come through where runners meet, mm³/s: what all castings take in; on a tree of several kinds so much that
 * each gate's share, they share as they would flow, fills its own pattern, as far as the gates let through.
 */
const flowWanted = (frame: Frame, gates: readonly GateDesign[]): number => {
  const all = fillFlow(frame.input.casting.mass, frame);
  if (frame.served === undefined) return all;
  const shares = frame.served.map(({ kind }, i) => fillFlow(kind.casting.mass, frame) / gates[i]!.flow);
  return Math.max(all, Math.min(1, Math.max(...shares)) * gates.reduce((sum, g) => sum + g.flow, 0));
};

/** Slack for "met": well under what anyone can print or measure. */
const slack = 1 + 1e-6;

/** Whether every casting fills in the longest pour, the gates sharing what comes through. */
export const fillsInTime = ({ gates, flow }: Design, frame: Frame): boolean => {
  if (frame.served === undefined) return fillFlow(frame.input.casting.mass, frame) <= flow * slack;
  const share = flow / gates.reduce((sum, g) => sum + g.flow, 0);
  return frame.served.every(
    ({ kind }, i) => fillFlow(kind.casting.mass, frame) <= share * gates[i]!.flow * slack,
  );
};

/** Sizes all for the cup's rim and the vents at z = `top`. */
export const designAt = (frame: Frame, top: number): Design => {
  const { input, settings, places } = frame;
  const { casting, metal } = input;
  const head = top - lowestGate(frame);
  const chokeFor = (mass: number, h: number): number =>
    chokeArea(mass, metal.liquidDensity, frame.longestPour, settings.dischargeCoefficient, h);
  const modulusDiameter = modulusDiameterOf(input, settings);
  /** What a gate is sized by: its share of all, or of a tree of several kinds what its own pattern asks for. */
  const needsOf = (place: GatePlace, served: Served | undefined): GateNeeds & { readonly choke: number } => {
    const { velocityLimit } = frame;
    if (served === undefined) {
      const acting = actingHead(casting, lowestGate(frame), top);
      const choke = chokeFor(casting.mass, acting);
      const chokeDiameter = circleDiameter((up * choke) / places.length);
      return { choke, chokeDiameter, modulusDiameter, head: acting, velocityLimit };
    }
    const own = served.kind.casting;
    const acting = actingHead(own, place.at[2], top);
    const choke = chokeFor(own.mass, acting);
    return {
      choke,
      chokeDiameter: circleDiameter(up * choke),
      modulusDiameter: modulusDiameterOf({ casting: own }, settings),
      head: acting,
      velocityLimit,
    };
  };
  const needs = places.map((place, i) => needsOf(place, frame.served?.[i]));
  const choke = frame.served ? needs.reduce((sum, n) => sum + n.choke, 0) : (needs[0]?.choke ?? 0);
  const acting = Math.min(...needs.map((n) => n.head));
  const single = places.length === 1;
  /** While the cup's level is being settled the junction may lie over it. */
  const headOver = (sized: readonly GateDesign[]): number =>
    Math.max(top - junctionOf(sized, casting.top)[2], 1);
  /** Diameter that lets what the gates need through where they meet, mm. */
  const wayWanted = (sized: readonly GateDesign[]): number => {
    const full = fallVelocity(headOver(sized)) * settings.dischargeCoefficient;
    return circleDiameter((up * flowWanted(frame, sized)) / full);
  };
  const sizeAll = (least: number): readonly GateDesign[] =>
    places.map((place, i) =>
      sizeGate(place, settings, { ...(needs[i] as GateNeeds), junctionDiameter: least }),
    );
  const gates = single ? sizeAll(0) : widenForJunction(sizeAll, wayWanted);
  const [first] = gates as [GateDesign, ...GateDesign[]];
  const junction = single ? first.place.at : junctionOf(gates, casting.top);
  const base: Vec3 = single ? junction : [junction[0], junction[1], junction[2] - mouthDepth(gates)];
  const runners = single ? [] : gates.map((gate) => runnerPath(gate, junction, casting.top));
  const bottomDiameter = single
    ? first.diameter
    : Math.max(wayWanted(gates), overRunner * Math.max(...gates.map((g) => g.diameter)));
  const throughGates = gates.reduce((sum, g) => sum + g.flow, 0);
  const throat = circleArea(Math.min(bottomDiameter, junctionDiameter(gates)));
  const flow = single
    ? throughGates
    : Math.min(throughGates, flowThrough(throat, settings.dischargeCoefficient, headOver(gates)));
  const feedDemand = Math.max(0, metal.freezingContraction) * casting.volume;
  const { cup, shape } = sizeSprue({
    height: Math.max(top - base[2], 1),
    gateInner: single ? first.inner : 0,
    gateOuter: single ? first.outer : sprueMouth(Math.min(...gates.map((g) => g.diameter))),
    bottomDiameter,
    // Where the part stands higher than the gate the sprue must not widen beyond its place.
    widest: isRecessed(frame)
      ? Math.max(bottomDiameter, gateRoom(first.place).outer)
      : Number.POSITIVE_INFINITY,
    flowVolume: Math.min(settings.cupSeconds * flow, settings.cupShare * casting.volume),
    feedDemand,
    feedShare: feedShare(frame),
    cup: {
      wallAngle: settings.cupWallAngle,
      leastDiameter: settings.cupLeastDiameter,
      largestDiameter: settings.cupLargestDiameter ?? Math.max(50, 2 * casting.radius),
    },
  });
  const ventRoom: VentRoom = {
    axis: base,
    runners: runners.map((path, i) => ({ path, width: 2 * halfAlong(gates[i]!.diameter) })),
    outline: sprueOutline(shape),
    partTop: casting.top,
    // Horizontal, so that the gap square to leaning surfaces is the clearance.
    clearance:
      settings.clearance /
      maths.sin(Math.min(settings.cupWallAngle, ventLean, flareAngle, single ? ventLean : runnerLean)),
  };
  return {
    top,
    head,
    effectiveHead: acting,
    chokeArea: choke,
    chokeDiameter: circleDiameter(choke),
    modulusDiameter,
    gates,
    runners,
    gateArea: gates.reduce((sum, g) => sum + g.area, 0),
    flow,
    base,
    cup,
    shape,
    feedDemand,
    feedSupply: Math.max(0, feedShare(frame)) * sprueVolume(shape),
    ventRoom,
    ventDiameters: sizeUsableVents(frame.vents, choke, settings, ventRoom),
  };
};

/** The lowest cup level at which the design's sprue, cup and vents have the height they need. */
export const levelNeeded = (frame: Frame, d: Design): number => {
  const { input, settings } = frame;
  const { shape, cup } = d;
  const foot = footHeights(shape.gateInner, shape.gateOuter, shape.bottomDiameter);
  const widening = ((shape.topDiameter - shape.bottomDiameter) / 2) * maths.tan(flareAngle);
  const tapered = Math.max(settings.leastSprueLength - neckLength, widening, 1);
  return Math.max(
    input.casting.top + settings.leastHead,
    d.base[2] + foot.top + neckLength + tapered + cup.depth,
    // The cup stands over the whole part.
    input.casting.top + settings.clearance + cup.depth,
    ...frame.vents.map((v, i) => {
      const diameter = d.ventDiameters[i] ?? 0;
      return diameter > 0 ? ventNeedsTop(v, diameter, d.ventRoom) : Number.NEGATIVE_INFINITY;
    }),
  );
};

/** Settles the cup's level: sizes depend on the head, and the head on the cup's depth. */
export const settleDesign = (frame: Frame): Design => {
  let design = designAt(frame, frame.input.casting.top + frame.settings.leastHead);
  for (let round = 0; round < 200; round++) {
    const need = levelNeeded(frame, design);
    if (Math.abs(need - design.top) < 1e-9) break;
    // A vent that just fits or not can make it swing: after a while it may only rise.
    if (round > 40 && need < design.top) break;
    design = designAt(frame, need);
  }
  return design;
};

const sizeUsableVents = (
  places: readonly VentPlace[],
  area: number,
  settings: GatingSettings,
  room: VentRoom,
): readonly number[] => {
  const usable = places.map((p) => ({ ...p, footDiameter: Math.min(p.footDiameter, ventFootRoom(p, room)) }));
  return sizeVents(usable, area, {
    least: settings.ventLeastDiameter,
    largest: settings.ventLargestDiameter,
  });
};
