import { arc, arcBetween, line, type Outline, type OutlinePiece } from '../../core/shape/index.js';
import type { Vec2 } from '../../core/solid/types.js';

/**
 * A leaf cut square to its pin: the barrel about the pin's axis, and the leaf that leaves it towards +x, its inner
 * face up. The axis is at [0, 0]; [x, z], mm. The same all along every knuckle.
 */
export interface KnuckleSection {
  readonly barrelRadius: number;
  /** How far the inner face lies under the pin's axis: half the gap between the closed leaves. */
  readonly faceDrop: number;
  /** How far the back lies under the pin's axis: at most the barrel's radius, where it is flush with the barrel. */
  readonly backDrop: number;
  /** Axis to the leaf's free edge. */
  readonly reach: number;
  /** Between barrel and inner face. */
  readonly fillet: number;
  /** Between barrel and back, where the barrel stands proud of it. */
  readonly backFillet: number;
  /** Rounding of the free edge's two corners. */
  readonly edge: number;
}

/** The section's parallel, `by` mm outside it. */
export const grownSection = (s: KnuckleSection, by: number): KnuckleSection => ({
  barrelRadius: s.barrelRadius + by,
  faceDrop: s.faceDrop - by,
  backDrop: s.backDrop + by,
  reach: s.reach + by,
  fillet: s.fillet - by,
  backFillet: s.backFillet - by,
  edge: s.edge + by,
});

/** Centre of the fillet between barrel and inner face; below it the inner face begins. */
export function filletCentre({ barrelRadius, faceDrop, fillet }: KnuckleSection): Vec2 {
  const up = fillet - faceDrop;
  return [Math.sqrt((barrelRadius + fillet) ** 2 - up ** 2), up];
}

/** The same at the back, where the barrel is proud of it; null where they are flush. */
export function backFilletCentre({ barrelRadius, backDrop, backFillet }: KnuckleSection): Vec2 | null {
  if (barrelRadius - backDrop < 1e-6) return null;
  const down = backDrop + backFillet;
  return [Math.sqrt((barrelRadius + backFillet) ** 2 - down ** 2), -down];
}

/** Where the inner face is flat from, mm from the axis. */
export const faceStart = (s: KnuckleSection): number => filletCentre(s)[0];

/** Through a knuckle. */
export function knuckleOutline(s: KnuckleSection): Outline {
  const { barrelRadius: r, fillet, backFillet } = s;
  const touch = (centre: Vec2, f: number): Vec2 => [(centre[0] * r) / (r + f), (centre[1] * r) / (r + f)];
  const front = filletCentre(s);
  const back = backFilletCentre(s);
  const leaveBarrel: Vec2 = back ? touch(back, backFillet) : [0, -r];
  const startBack: Vec2 = [back ? back[0] : 0, -s.backDrop];
  return [
    ...(back ? [arcBetween(leaveBarrel, startBack, back, true)] : []),
    ...freeEdge(s, startBack, [front[0], -s.faceDrop]),
    arcBetween([front[0], -s.faceDrop], touch(front, fillet), front, true),
    arcBetween(touch(front, fillet), leaveBarrel, [0, 0], false),
  ];
}

/** Beside the other leaf's knuckles, where the leaf is cut away short of `floor` mm from the axis. */
export function notchedOutline(s: KnuckleSection, floor: number): Outline {
  const front = filletCentre(s);
  const back = backFilletCentre(s);
  const humps = (centre: Vec2 | null, f: number): centre is Vec2 =>
    centre !== null && centre[0] > floor + 1e-9 && centre[0] - f < floor;
  const rise = (centre: Vec2, f: number): number => Math.sqrt(f * f - (centre[0] - floor) ** 2);
  const top: Vec2 = [floor, humps(front, s.fillet) ? front[1] - rise(front, s.fillet) : -s.faceDrop];
  const low: Vec2 = [floor, humps(back, s.backFillet) ? back[1] + rise(back, s.backFillet) : -s.backDrop];
  const startBack: Vec2 = [humps(back, s.backFillet) ? back[0] : floor, -s.backDrop];
  const endFace: Vec2 = [humps(front, s.fillet) ? front[0] : floor, -s.faceDrop];
  return [
    ...(humps(back, s.backFillet) ? [arcBetween(low, startBack, back, true)] : []),
    ...freeEdge(s, startBack, endFace),
    ...(humps(front, s.fillet) ? [arcBetween(endFace, top, front, true)] : []),
    line(top, low),
  ];
}

/** The flat leaf alone, from `from` mm off the axis. */
export const stripOutline = (s: KnuckleSection, from: number): Outline => [
  ...freeEdge(s, [from, -s.backDrop], [from, -s.faceDrop]),
  line([from, -s.faceDrop], [from, -s.backDrop]),
];

/** From the back round the free edge to the inner face. */
function freeEdge(s: KnuckleSection, from: Vec2, to: Vec2): readonly OutlinePiece[] {
  const { reach: x, edge: e, backDrop, faceDrop } = s;
  if (e === 0) {
    return [line(from, [x, -backDrop]), line([x, -backDrop], [x, -faceDrop]), line([x, -faceDrop], to)];
  }
  return [
    line(from, [x - e, -backDrop]),
    arc([x - e, -backDrop + e], e, -Math.PI / 2, Math.PI / 2),
    line([x, -backDrop + e], [x, -faceDrop - e]),
    arc([x - e, -faceDrop - e], e, 0, Math.PI / 2),
    line([x - e, -faceDrop], to),
  ];
}
