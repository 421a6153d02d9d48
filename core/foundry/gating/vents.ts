import { maths } from '../../maths/maths.js';
import type { VentPlace } from '../../part/contract.js';
import type { Vec2, Vec3 } from '../../solid/types.js';
import { circleArea } from './choke.js';
import { pathDistance, type RisingPath, sprueDistance } from './clearance.js';

/** Least lean of a vent above the horizontal. */
export const ventLean = Math.PI / 3;

/** Straight pieces at a vent's foot (to saw) and at its top, mm. */
const stub = 2;

export interface Vent {
  readonly name: string;
  readonly diameter: number;
  readonly path: RisingPath;
  /** mm that the part's surface falls away under its foot; 0 where left out. */
  readonly seat?: number;
}

/**
 * One diameter for all vents so that their areas add up to `area`, each held within `least` and its own place and
 * none over `largest`. Places too small for the least vent get 0.
 */
export const sizeVents = (
  places: readonly VentPlace[],
  area: number,
  range: { readonly least: number; readonly largest: number },
): readonly number[] => {
  const sizesFor = (d: number): readonly number[] =>
    places.map(({ footDiameter }) =>
      footDiameter < range.least ? 0 : Math.max(range.least, Math.min(footDiameter, d)),
    );
  const areaFor = (d: number): number => sizesFor(d).reduce((sum, v) => sum + circleArea(v), 0);
  let [low, high] = [range.least, range.largest];
  if (areaFor(high) < area) return sizesFor(high);
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (areaFor(middle) < area) low = middle;
    else high = middle;
  }
  return sizesFor(high);
};

/** A runner, as vents see it: its greatest width at any level, mm. */
export interface RunnerObstacle {
  readonly width: number;
  readonly path: RisingPath;
}

export interface VentRoom {
  /** Bottom of the sprue's axis. */
  readonly axis: Vec3;
  readonly runners: readonly RunnerObstacle[];
  /** Of the sprue, from `sprueOutline`. */
  readonly outline: readonly Vec2[];
  readonly partTop: number;
  readonly clearance: number;
}

const cupRadius = (room: VentRoom): number => room.outline[room.outline.length - 1]?.[0] ?? 0;

/** Where a vent may first lean: clear of its foot and of everything of the part. */
const leanStart = (at: Vec3, partTop: number): number => Math.max(at[2], partTop) + stub;

/** Distance from the sprue's axis at which a vent stands clear of the cup. */
const clearRadius = (room: VentRoom, diameter: number): number =>
  cupRadius(room) + room.clearance + diameter / 2;

const radiusOf = (at: Vec3, axis: Vec3): number => maths.hypot(at[0] - axis[0], at[1] - axis[1]);

/** Lowest cup level at which the vent can lean clear of the cup, mm. */
export const ventNeedsTop = (place: VentPlace, diameter: number, room: VentRoom): number => {
  const out = Math.max(0, clearRadius(room, diameter) - radiusOf(place.at, room.axis));
  return leanStart(place.at, room.partTop) + out * maths.tan(ventLean) + stub;
};

/** Turns (radians) and steps outward tried in this order until a vent stands clear of all before it. */
const turns = [0, 8, -8, 16, -16, 24, -24, 36, -36, 48, -48].map((d) => (d * Math.PI) / 180);
const stepsOut = [0, 1, 2];

/** Largest diameter whose upright first piece stands clear of the sprue, mm; may be negative. */
export const ventFootRoom = (place: VentPlace, room: VentRoom): number => {
  const start = leanStart(place.at, room.partTop);
  const foot: RisingPath = [place.at, [place.at[0], place.at[1], start]];
  const gaps = [
    sprueDistance(foot, room.axis, room.outline),
    ...room.runners.map((r) => pathDistance(foot, r.path) - r.width / 2),
  ];
  return 2 * (Math.min(...gaps) - room.clearance);
};

/**
 * The way of one vent from its place to the level `top`, clear of the sprue, the cup and the vents before it: upright
 * to above the part, leaning away from the sprue where the cup is in the way, upright again. Null: none was found.
 */
export const routeVent = (
  place: VentPlace,
  diameter: number,
  room: VentRoom,
  top: number,
  before: readonly Vent[],
): RisingPath | null => {
  const { at } = place;
  const [x0, y0] = [at[0] - room.axis[0], at[1] - room.axis[1]];
  const azimuth = maths.atan2(y0, x0);
  const reach = Math.max(maths.hypot(x0, y0), clearRadius(room, diameter));
  const start = leanStart(at, room.partTop);
  for (const step of stepsOut) {
    for (const turn of turns) {
      const radius = reach + step * (diameter + room.clearance);
      const stays = step === 0 && turn === 0;
      const end: Vec2 =
        stays && reach <= maths.hypot(x0, y0)
          ? [at[0], at[1]]
          : [
              room.axis[0] + radius * maths.cos(azimuth + turn),
              room.axis[1] + radius * maths.sin(azimuth + turn),
            ];
      const path = ventPath(at, end, start, top);
      if (path !== null && isClear(path, diameter, room, before)) return path;
    }
  }
  return null;
};

/** Null where the lean would be lower than it may. */
const ventPath = (at: Vec3, end: Vec2, start: number, top: number): RisingPath | null => {
  const out = maths.hypot(end[0] - at[0], end[1] - at[1]);
  if (out === 0) return [at, [at[0], at[1], top]];
  const rise = top - stub - start;
  if (rise < out * maths.tan(ventLean) - 1e-6) return null;
  return [at, [at[0], at[1], start], [end[0], end[1], top - stub], [end[0], end[1], top]];
};

const isClear = (path: RisingPath, diameter: number, room: VentRoom, before: readonly Vent[]): boolean =>
  sprueDistance(path, room.axis, room.outline) >= diameter / 2 + room.clearance - 1e-6 &&
  room.runners.every((r) => pathDistance(path, r.path) >= (diameter + r.width) / 2 + room.clearance - 1e-6) &&
  before.every((v) => pathDistance(path, v.path) >= (diameter + v.diameter) / 2 + room.clearance - 1e-6);

/** Air in a mould at about 400 °C: Pa s and kg/m³ (Incropera, Table A.4, 673 K, from memory). */
export const air = { viscosity: 3.3e-5, density: 0.52 };

export const pathLength = (path: RisingPath): number =>
  path.reduce((sum, p, i) => {
    const q = path[i - 1];
    return q === undefined ? 0 : sum + maths.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]);
  }, 0);

/** Laminar pressure loss in a round pipe, Pa (Hagen–Poiseuille): Δp = 128 μ L Q/(π d⁴). SI units. */
export const pipeLoss = (viscosity: number, length: number, flow: number, diameter: number): number =>
  (128 * viscosity * length * flow) / (Math.PI * maths.pow(diameter, 4));

/**
 * mm³/s of air that `pressure` Pa drives out of the vents in parallel: each loses pipe friction and one and a half
 * velocity heads for entry and exit, a q + b q², and takes what makes that the pressure.
 */
export const ventOutflow = (vents: readonly Vent[], pressure: number): number =>
  vents.reduce((sum, v) => {
    const [d, l] = [v.diameter / 1000, pathLength(v.path) / 1000];
    const a = pipeLoss(air.viscosity, l, 1, d);
    const b = (1.5 * 0.5 * air.density) / ((Math.PI / 4) * d * d) ** 2;
    return sum + (1e9 * 2 * pressure) / (a + Math.sqrt(a * a + 4 * b * pressure));
  }, 0);

/**
 * Pressure of the air that metal entering at `flow` mm³/s drives out of the vents, Pa: the inverse of `ventOutflow`.
 * Infinity without vents.
 */
export const ventBackPressure = (vents: readonly Vent[], flow: number): number => {
  const metres = vents.map((v) => ({ d: v.diameter / 1000, l: pathLength(v.path) / 1000 }));
  const conductance = metres.reduce((sum, { d, l }) => sum + 1 / pipeLoss(air.viscosity, l, 1, d), 0);
  if (conductance === 0) return Number.POSITIVE_INFINITY;
  const friction = (flow * 1e-9) / conductance;
  const fastest = Math.max(
    ...metres.map(({ d, l }) => friction / pipeLoss(air.viscosity, l, 1, d) / ((Math.PI / 4) * d * d)),
  );
  // Friction alone is too little; with the heads of the fastest vent for all it is enough.
  let [low, high] = [friction, friction + 1.5 * 0.5 * air.density * fastest ** 2];
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (ventOutflow(vents, middle) < flow) low = middle;
    else high = middle;
  }
  return high;
};
