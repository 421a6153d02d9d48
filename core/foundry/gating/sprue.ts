import { maths } from '../../maths/maths.js';
import type { Vec2 } from '../../solid/types.js';
import type { GatingPlan } from '../plans.js';

/** How far gating is sunk into the part, mm: shapes that join must overlap by a real amount. */
export const sink = 0.4;

/**
 * Where the drawn-in root of the gating ends, above the part's surface, mm: a rim of corners lying in that surface
 * itself would meet it in slivers.
 */
export const lift = 0.1;

/** What the gate keeps clear of the edges of its place, mm a side, so that nothing overhangs a hole or a rim. */
export const edgeMargin = 0.2;

/** Roof over a cored hole's mouth, above the horizontal: a little steeper than the 45° that prints without support. */
export const roofAngle = (50 * Math.PI) / 180;

/** Flare of the foot, above the horizontal. */
export const flareAngle = Math.PI / 3;

/** Straight neck over the foot, where the sprue is sawn off, mm. */
export const neckLength = 4;

/**
 * A round sprue with foot and cup, heights in mm above the part's surface at the gate, or above the place where runners
 * meet: there `gateOuter` is its own narrow mouth between them.
 */
export interface SprueShape {
  readonly gateInner: number;
  readonly gateOuter: number;
  readonly bottomDiameter: number;
  readonly topDiameter: number;
  /** From the gate to the cup's bottom. */
  readonly length: number;
  readonly cupDiameter: number;
  readonly cupDepth: number;
  /** How far the part's surface falls away under the foot; 0 where left out. */
  readonly seat?: number;
}

/** Diameter at which the sprue begins between runners of which the thinnest has `diameter`, mm: all inside them. */
export const sprueMouth = (diameter: number): number => diameter / 2;

/** The seat of a place, left out where it has none. */
export const seatOf = (place: { readonly seat?: number } | undefined): { readonly seat?: number } =>
  place?.seat ? { seat: place.seat } : {};

export const sprueShape = ({ gates, ...plan }: GatingPlan): SprueShape => ({
  gateInner: gates[0]?.runner ? 0 : (gates[0]?.innerDiameter ?? 0),
  gateOuter: gates[0]?.runner
    ? sprueMouth(Math.min(...gates.map((g) => g.runner?.diameter ?? 0)))
    : (gates[0]?.outerDiameter ?? 0),
  bottomDiameter: plan.sprue.bottomDiameter,
  topDiameter: plan.sprue.topDiameter,
  length: plan.sprue.length,
  cupDiameter: plan.cup.topDiameter,
  cupDepth: plan.cup.depth,
  ...(gates[0]?.runner ? {} : seatOf(gates[0])),
});

/** Height of the conical roof over a cored hole of the gate's inner diameter, mm. */
export const roofHeight = (gateInner: number): number => (gateInner / 2) * maths.tan(roofAngle);

/**
 * The foot: a cylinder, then a flare narrowing to the sprue, ending no lower than the roof's apex. The flare is
 * steeper than the roof, so the ring of metal round the roof is nowhere less than the smaller of the gate ring and
 * the sprue's bottom: R² − r² is concave along the flare, and is at least one of them at either end.
 */
export const footHeights = (
  gateInner: number,
  gateOuter: number,
  bottomDiameter: number,
): { readonly cylinder: number; readonly top: number } => {
  // Over runners it widens instead, as they lean.
  if (gateOuter < bottomDiameter)
    return { cylinder: 0, top: ((bottomDiameter - gateOuter) / 2) * maths.tan(roofAngle) };
  const flare = ((gateOuter - bottomDiameter) / 2) * maths.tan(flareAngle);
  const cylinder = Math.max(0, roofHeight(gateInner) - flare);
  return { cylinder, top: cylinder + flare };
};

/** Outline of the gating from the gate up, [radius, height], without what is sunk. */
export const sprueOutline = (s: SprueShape): readonly Vec2[] => {
  const foot = footHeights(s.gateInner, s.gateOuter, s.bottomDiameter);
  const bottom = s.bottomDiameter / 2;
  return withoutRepeats([
    [s.gateOuter / 2, 0],
    [s.gateOuter / 2, foot.cylinder],
    [bottom, foot.top],
    [bottom, foot.top + neckLength],
    [s.topDiameter / 2, s.length],
    [s.cupDiameter / 2, s.length + s.cupDepth],
  ]);
};

/** How much the root of a gate's ring draws in from its edges, and out towards the surface's other side, mm. */
export const rootDraw = (gateInner: number, gateOuter: number): number =>
  Math.min(sink / 2, (gateOuter - gateInner) / 8);

/**
 * The closed profile to revolve, [radius, height], counter-clockwise. From just above the part's surface down it draws
 * in from both edges of the ring, so the sunk part touches neither the hole nor the rim.
 */
export const sprueProfile = (s: SprueShape): readonly Vec2[] => {
  const inner = s.gateInner / 2;
  const outer = s.gateOuter / 2;
  const [, ...rest] = sprueOutline(s);
  // Both edges run on through the surface at their own slope, so that in it the ring has just its size.
  const depth = sink + (s.seat ?? 0);
  const up = Math.min(lift, (rest[0] as Vec2)[1] / 2) / depth;
  const draw = rootDraw(s.gateInner, s.gateOuter);
  const base: readonly Vec2[] =
    inner > 0
      ? [
          [0, roofHeight(s.gateInner)],
          [inner - draw * up, up * depth],
          [inner + draw, -depth],
        ]
      : [[0, -depth]];
  return [
    ...base,
    [outer - draw, -depth],
    [outer + draw * up, up * depth],
    ...rest,
    [0, s.length + s.cupDepth],
  ];
};

/** Outer radius of the gating at `height` above the gate, mm. */
export const sprueRadius = (outline: readonly Vec2[], height: number): number => {
  const first = outline[0];
  if (first === undefined) return 0;
  let [r0, z0] = first;
  if (height <= z0) return r0;
  for (const [r1, z1] of outline) {
    if (height <= z1 && z1 > z0) return r0 + ((r1 - r0) * (height - z0)) / (z1 - z0);
    [r0, z0] = [r1, z1];
  }
  return r0;
};

/** Volume of sprue, foot and cup above the part, mm³: Pappus over the frusta, less the roof's cone. */
export const sprueVolume = (s: SprueShape): number => {
  const outline = sprueOutline(s);
  let volume = 0;
  for (let i = 1; i < outline.length; i++) {
    const [r0, z0] = outline[i - 1]!;
    const [r1, z1] = outline[i]!;
    volume += (Math.PI / 3) * (z1 - z0) * (r0 * r0 + r0 * r1 + r1 * r1);
  }
  return volume - (Math.PI / 12) * s.gateInner ** 2 * roofHeight(s.gateInner);
};

/** Points nearer than this, mm, would make slivers. */
const sliver = 0.02;

const withoutRepeats = (points: readonly Vec2[]): readonly Vec2[] =>
  points.filter((p, i) => {
    const before = points[i - 1];
    return before === undefined || maths.hypot(p[0] - before[0], p[1] - before[1]) > sliver;
  });
