import { filletRadius, finLimit, headLand } from '../../core/hardware/index.js';
import { maths } from '../../core/maths/maths.js';
import { type Outline, obroundOutline, offsetOutline, rectangleOutline } from '../../core/shape/index.js';
import { SolidError } from '../../core/solid/errors.js';
import type { Vec2 } from '../../core/solid/types.js';
import { planOf, ringOutline } from '../hardware/ring-plan.js';
import { type RingPullSizes, swingClearance } from './sizes.js';

/** Levels and outlines of the flush plate; z from its lowest point, mm. */
export interface FlushLayout {
  /** The face. */
  readonly top: number;
  /** Floor of the ring's seat, and of the finger well. */
  readonly seatFloor: number;
  readonly wellFloor: number;
  /** The pin's axis. */
  readonly pinZ: number;
  /** Undersides of the flange and of the cup round the seat. */
  readonly flangeUnder: number;
  readonly cupUnder: number;
  readonly flange: { readonly x: readonly [number, number]; readonly y: number; readonly corner: number };
  readonly screws: readonly Vec2[];
  /** Metal round the seat and under it. */
  readonly wall: number;
  readonly floor: number;
  readonly fillets: {
    /** Between wall and floor of the seat. */
    readonly seat: number;
    readonly well: number;
    /** Under the flange and under the seat. */
    readonly under: number;
    /** Outside, round the bottom. */
    readonly outside: number;
  };
}

/** Ring below the face, so that nothing catches on it, mm. */
const belowFace = 0.2;
/** Air round the ring in its seat at least, mm. */
const leastSeatClearance = 0.75;

/** Nearer than this the ring does not come to its seat as it turns, mm. */
const leastAir = 0.15;

/**
 * Air round the ring in its seat, mm. As the ring is lifted, what is behind its opening moves towards the pin until it
 * is out of the seat: a point dx before the axis and h over it by dx (1 − cos θ) + h sin θ, out when h cos θ + dx sin θ
 * is the axis' depth. The seat's corners at the slot are the ring's fillets moved back by this air, and out by half the
 * end clearance; round the ring it is the same all over.
 */
export function seatClearance(s: RingPullSizes): number {
  const { pinX, plan, filletRadius: f } = s;
  const beside = (s.gap - s.tabWidth) / 2;
  const steps = 16;
  let most = leastSeatClearance;
  for (let i = 0; i < steps; i++) {
    const angle = plan.filletEnd + (i / steps) * (Math.PI / 2 - plan.filletEnd);
    const cos = maths.cos(angle);
    const inFillet = farthestBack(s, pinX - plan.filletX + f * cos);
    const onRing = farthestBack(s, pinX - plan.halfX - plan.outer * cos);
    most = Math.max(most, inFillet + (leastAir - beside * maths.sin(angle)) / cos, onRing * cos + leastAir);
  }
  return most;
}

/** How far a point so far before the pin's axis moves back before it leaves the seat, mm. */
function farthestBack({ thickness }: RingPullSizes, fromPin: number): number {
  const depth = thickness / 2 + belowFace;
  let most = 0;
  for (let k = 1; k <= 40; k++) {
    const angle = (k / 40) * (Math.PI / 2.2);
    const h = Math.min(thickness / 2, (depth - fromPin * maths.sin(angle)) / maths.cos(angle));
    if (h <= -thickness / 2) break;
    most = Math.max(most, fromPin * (1 - maths.cos(angle)) + h * maths.sin(angle));
  }
  return most;
}

/** Rounding of the face's edges and of the seat's rim, mm. */
export const faceEdge = 0.8;
/** Rounding between seat and well, mm. */
export const wellRim = 1.2;

/** Radius of the well's round ends: half of the ring's section lies on the seat, a finger gets under the other. */
export const wellRadius = (s: RingPullSizes): number => s.plan.inner + 0.55 * s.rimWidth;

export const wellOutline = (s: RingPullSizes, outset = 0): Outline => {
  const { halfX, halfY } = s.plan;
  const r = wellRadius(s) + outset;
  return halfX > halfY
    ? obroundOutline([-halfX, 0], [halfX, 0], r)
    : obroundOutline([0, -halfY], [0, halfY], r);
};

/** Where the slot for the tab ends. */
export const slotEnd = (s: RingPullSizes): number => s.pinX + s.swing + swingClearance;

/** The seat in plan; `step` moves the slot's sides in, mm. */
export function seatOutline(s: RingPullSizes, step = 0): Outline {
  const plan = planOf({
    eyeWidth: s.eyeWidth,
    eyeLength: s.eyeLength,
    rimWidth: s.rimWidth + seatClearance(s),
    tabWidth: s.gap - 2 * step,
    filletRadius: s.filletRadius,
  });
  return ringOutline(plan, slotEnd(s), slotCorner(s));
}

/** Corners at the slot's end in plan: inside corners of the casting. */
const slotCorner = (s: RingPullSizes): number => Math.min(2, s.gap / 4);

export function flushLayout(s: RingPullSizes): FlushLayout {
  const { thickness, swing, plateThickness, eyeThickness: wall, wellDepth, seat, plan } = s;
  const floor = Math.max(wall * 0.85, 3);
  const pinDepth = thickness / 2 + belowFace;
  const seatDepth = pinDepth + Math.max(swing, thickness / 2) + 0.3;
  const top = wellDepth + floor;
  const under = filletRadius(plateThickness, wall).usual;
  const cupUnder = top - seatDepth - floor;
  const rim = plan.outer + seatClearance(s) + wall;
  const margin = Math.max(under, 1) + 1.5;
  const mouth = seat.mouthDiameter / 2;
  const land = mouth + headLand(seat.mouthDiameter) + faceEdge;
  const right = plan.halfX + rim + margin;
  const left = slotEnd(s) + wall + margin;
  const y = plan.halfY + rim + margin;
  const clear = plan.outer + seatClearance(s) + faceEdge + mouth + 1.5;
  // Screws in the corners beside the round seat: moved out until they clear it.
  const reach = (corner: Vec2): Vec2 => {
    const [cx, cy] = [plan.halfX, plan.halfY];
    const [dx, dy] = [corner[0] - cx, corner[1] - cy];
    const distance = maths.hypot(dx, dy);
    const grow = distance < clear ? clear / distance : 1;
    return [cx + dx * grow, cy + dy * grow];
  };
  const front = reach([right - land, y - land]);
  const half = Math.max(y, front[1] + land);
  const back = Math.max(left - land, plan.halfX + 1);
  return {
    top,
    seatFloor: top - seatDepth,
    wellFloor: floor,
    pinZ: top - pinDepth,
    flangeUnder: top - plateThickness,
    cupUnder,
    flange: { x: [-left, Math.max(right, front[0] + land)], y: half, corner: land * 0.9 },
    screws: [front, [front[0], -front[1]], [-back, half - land], [-back, -(half - land)]],
    wall,
    floor,
    fillets: {
      seat: Math.min(1.5, 0.3 * seatDepth),
      well: Math.min(5, 0.45 * (wellDepth - seatDepth), 0.4 * wellRadius(s)),
      under,
      outside: Math.max(0.5, Math.min(3, wall * 0.6, cupUnder - under - 0.3)),
    },
  };
}

export const flangeOutline = ({ flange: { x, y, corner } }: FlushLayout): Outline =>
  rectangleOutline([(x[0] + x[1]) / 2, 0], x[1] - x[0], 2 * y, corner);

/** The cup round the seat, its inner corners rounded where the wall bends in. */
export const cupOutline = (s: RingPullSizes, { wall }: FlushLayout): Outline => {
  const plan = planOf({
    eyeWidth: s.eyeWidth,
    eyeLength: s.eyeLength,
    rimWidth: s.rimWidth + seatClearance(s) + wall,
    tabWidth: s.gap + 2 * wall,
    filletRadius: Math.max(2, s.filletRadius),
  });
  return ringOutline(plan, slotEnd(s) + wall, slotCorner(s) + wall);
};

/** Whether the outlines of seat and cup stand the roundings of their edges. @param step as for `seatOutline` */
export function flushFits(s: RingPullSizes, step: number): boolean {
  const at = flushLayout(s);
  const room = 1.5;
  try {
    offsetOutline(cupOutline(s, at), -at.fillets.outside - room);
    offsetOutline(cupOutline(s, at), at.fillets.under + room);
    offsetOutline(seatOutline(s, step), -at.fillets.seat - room);
    offsetOutline(seatOutline(s, step), faceEdge + room);
    return true;
  } catch (error) {
    if (error instanceof SolidError) return false;
    throw error;
  }
}

/** Half the length of the pin's groove, and its depth from the underside of the cup. */
export const grooveHalf = (s: RingPullSizes): number => s.gap / 2 + s.eyeThickness + 0.3;

/** Whether the mould holds the rib that makes the groove. @param width as cast, mm */
export const grooveCast = (width: number, depth: number): boolean => depth <= finLimit(width, 'two-edges');
