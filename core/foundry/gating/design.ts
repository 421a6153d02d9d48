import type { GatePlace, VentPlace } from '../../part/contract.js';
import type { GatingPlan } from '../plans.js';
import { chokeArea, circleArea, circleDiameter, effectiveHead, flowThrough, taperRatio } from './choke.js';
import { type Cup, feedingCupVolume, frustumVolume, sizeCup } from './cup.js';
import { modulus } from './freezing.js';
import type { GatingInput, GatingSettings } from './input.js';
import {
  edgeMargin,
  flareAngle,
  footHeights,
  neckLength,
  type SprueShape,
  sprueOutline,
  sprueVolume,
} from './sprue.js';
import { sizeVents, type VentRoom, ventFootRoom, ventLean, ventNeedsTop } from './vents.js';

/** Thinnest ring of metal that a gate round a cored hole may be, mm: what prints and fills. Common practice, no source. */
const leastRing = 1.2;

/** Inner and largest outer diameter of the ring a place offers, clear of its edges, mm. */
export const gateRoom = (place: GatePlace): { readonly inner: number; readonly outer: number } => ({
  inner: place.innerDiameter > 0 ? place.innerDiameter + 2 * edgeMargin : 0,
  outer: place.outerDiameter - 2 * edgeMargin,
});

/** Whether the smallest sprue fits the place. */
export const gateFits = (place: GatePlace, leastDiameter: number): boolean => {
  const { inner, outer } = gateRoom(place);
  return outer >= leastDiameter && (inner === 0 || outer - inner >= 2 * leastRing);
};

/** Sizes are rounded up by this much, so that a rule met exactly is not missed by the last bit. */
const up = 1 + 1e-7;

/** What does not depend on how high the cup stands. */
export interface Frame {
  readonly input: GatingInput;
  readonly settings: GatingSettings;
  readonly place: GatePlace;
  /** Longest pour, s. */
  readonly longestPour: number;
  /** mm/s */
  readonly velocityLimit: number;
}

/** Everything sized for a cup level. */
export interface Design {
  readonly top: number;
  readonly head: number;
  readonly effectiveHead: number;
  readonly chokeArea: number;
  readonly governedBy: GatingPlan['sprue']['governedBy'];
  /** Diameters the choke and the modulus rule ask for. */
  readonly chokeDiameter: number;
  readonly modulusDiameter: number;
  readonly gateArea: number;
  /** mm² the velocity limit asks of the gate. */
  readonly wantedGateArea: number;
  readonly flow: number;
  readonly cup: Cup;
  readonly shape: SprueShape;
  readonly feedDemand: number;
  readonly feedSupply: number;
  readonly ventRoom: VentRoom;
  /** Parallel to the vent places; 0 where none fits. */
  readonly ventDiameters: readonly number[];
}

/** Share of a feeder's volume left for the casting: e V_f = α (V_f + V_c) (Campbell). */
const feedShare = ({ input, settings }: Frame): number =>
  settings.feederEfficiency - Math.max(0, input.metal.freezingContraction);

/** Whether the part stands higher than its gate. */
export const isRecessed = ({ input, place }: Frame): boolean => input.casting.top > place.at[2] + 0.01;

/** Sizes all for the cup's rim and the vents at z = `top`. */
export const designAt = (frame: Frame, top: number): Design => {
  const { input, settings, place } = frame;
  const { casting, metal } = input;
  const z = place.at[2];
  const head = top - z;
  const height = casting.top - casting.bottom;
  const above = Math.min(height, Math.max(0, casting.top - z));
  const acting = effectiveHead(head, above, height);
  const choke = chokeArea(
    casting.mass,
    metal.liquidDensity,
    frame.longestPour,
    settings.dischargeCoefficient,
    acting,
  );
  const bottom = sizeBottom(frame, circleDiameter(up * choke));
  const gate = sizeGate(frame, bottom.diameter, acting);
  const feedDemand = Math.max(0, metal.freezingContraction) * casting.volume;
  const { cup, shape } = sizeSprue(frame, top, bottom.diameter, gate, feedDemand);
  const ventRoom: VentRoom = {
    axis: place.at,
    outline: sprueOutline(shape),
    partTop: casting.top,
    // Horizontal, so that the gap square to leaning surfaces is the clearance.
    clearance: settings.clearance / Math.sin(Math.min(settings.cupWallAngle, ventLean, flareAngle)),
  };
  const ventDiameters = sizeUsableVents(input.vents, choke, settings, ventRoom);
  return {
    top,
    head,
    effectiveHead: acting,
    chokeArea: choke,
    governedBy: bottom.governedBy,
    chokeDiameter: circleDiameter(choke),
    modulusDiameter: bottom.modulusDiameter,
    gateArea: gate.area,
    wantedGateArea: gate.wanted,
    flow: gate.flow,
    cup,
    shape,
    feedDemand,
    feedSupply: Math.max(0, feedShare(frame)) * sprueVolume(shape),
    ventRoom,
    ventDiameters,
  };
};

/** The lowest cup level at which the design's sprue, cup and vents have the height they need. */
export const levelNeeded = (frame: Frame, d: Design): number => {
  const { input, settings, place } = frame;
  const { shape, cup } = d;
  const foot = footHeights(shape.gateInner, shape.gateOuter, shape.bottomDiameter);
  const widening = ((shape.topDiameter - shape.bottomDiameter) / 2) * Math.tan(flareAngle);
  const tapered = Math.max(settings.leastSprueLength - neckLength, widening, 1);
  return Math.max(
    input.casting.top + settings.leastHead,
    place.at[2] + foot.top + neckLength + tapered + cup.depth,
    // The cup stands over the whole part.
    input.casting.top + settings.clearance + cup.depth,
    ...input.vents.map((v, i) => {
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

const sizeBottom = (frame: Frame, chokeDiameter: number) => {
  const { input, settings, place } = frame;
  const modulusDiameter = up * 4 * settings.modulusRatio * modulus(input.casting.volume, input.casting.area);
  const largest = gateRoom(place).outer;
  const wanted = Math.max(chokeDiameter, modulusDiameter, settings.leastSprueDiameter);
  const governedBy: GatingPlan['sprue']['governedBy'] =
    wanted > largest
      ? 'largest the place allows'
      : wanted === modulusDiameter
        ? 'modulus'
        : wanted === chokeDiameter
          ? 'choke'
          : 'smallest printable';
  return { diameter: Math.min(wanted, largest), modulusDiameter, governedBy };
};

/** The gate ring: wide enough for the velocity limit at the flow the sprue then gives, as far as the place allows. */
const sizeGate = (frame: Frame, bottom: number, acting: number) => {
  const { settings, place } = frame;
  const { inner, outer: largest } = gateRoom(place);
  const full = flowThrough(circleArea(bottom), settings.dischargeCoefficient, acting);
  const wanted = up * Math.max(circleArea(bottom), full / frame.velocityLimit);
  const least = inner === 0 ? bottom : Math.max(bottom, inner + 2 * leastRing);
  const outer = Math.min(largest, Math.max(least, circleDiameter(wanted + circleArea(inner))));
  const area = circleArea(outer) - circleArea(inner);
  // The smaller of ring and sprue chokes the stream.
  const flow = flowThrough(Math.min(area, circleArea(bottom)), settings.dischargeCoefficient, acting);
  return { inner, outer, area, wanted, flow };
};

const sizeSprue = (
  frame: Frame,
  top: number,
  bottom: number,
  gate: { readonly inner: number; readonly outer: number; readonly flow: number },
  feedDemand: number,
): { readonly cup: Cup; readonly shape: SprueShape } => {
  const { input, settings, place } = frame;
  const head = top - place.at[2];
  const share = feedShare(frame);
  // Where the part stands higher than the gate the sprue must not widen beyond its place.
  const widest = isRecessed(frame) ? Math.max(bottom, gateRoom(place).outer) : Number.POSITIVE_INFINITY;
  const flowVolume = Math.min(settings.cupSeconds * gate.flow, settings.cupShare * input.casting.volume);
  const shapeWith = (throat: number, cup: Cup): SprueShape => ({
    gateInner: gate.inner,
    gateOuter: gate.outer,
    bottomDiameter: bottom,
    topDiameter: throat,
    length: head - cup.depth,
    cupDiameter: cup.topDiameter,
    cupDepth: cup.depth,
  });
  let throat = bottom;
  let fed = 0;
  let cup = sizeCup(throat, flowVolume, cupLimits(frame));
  // The throat's taper depends on the cup's depth and the cup's volume on the throat and the sprue.
  for (let round = 0; round < 100; round++) {
    const before = cup.depth;
    throat = Math.min(widest, bottom * Math.sqrt(taperRatio(Math.min(cup.depth, head), head)));
    const asked = Math.max(flowVolume, feedingCupVolume(throat, settings.cupWallAngle), fed);
    cup = sizeCup(throat, asked, cupLimits(frame));
    const shape = shapeWith(throat, cup);
    const sprueOnly = sprueVolume(shape) - frustumVolume(throat, cup.topDiameter, cup.depth);
    fed = share > 0 ? (up * feedDemand) / share - Math.max(0, sprueOnly) : 0;
    if (Math.abs(cup.depth - before) < 1e-10) break;
  }
  return { cup, shape: shapeWith(throat, cup) };
};

const cupLimits = ({ input, settings }: Frame) => ({
  wallAngle: settings.cupWallAngle,
  leastDiameter: settings.cupLeastDiameter,
  largestDiameter: settings.cupLargestDiameter ?? Math.max(50, 2 * input.casting.radius),
});

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
