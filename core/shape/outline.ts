import { maths } from '../maths/maths.js';
import { SolidError } from '../solid/errors.js';
import type { Vec2 } from '../solid/types.js';

/** A straight piece of an outline, mm. */
export interface LinePiece {
  readonly kind: 'line';
  readonly from: Vec2;
  readonly to: Vec2;
}

/** A circular piece: from angle `start` through `sweep` radians, counter-clockwise when positive. mm. */
export interface ArcPiece {
  readonly kind: 'arc';
  readonly centre: Vec2;
  /** 0 for an arc that an offset has closed to a point. */
  readonly radius: number;
  readonly start: number;
  readonly sweep: number;
}

export type OutlinePiece = LinePiece | ArcPiece;

/**
 * A closed outline of lines and arcs that follow one another, counter-clockwise round the material. Each piece
 * begins where the one before it ends. The same pieces, left open, make a chain.
 */
export type Outline = readonly OutlinePiece[];

export const line = (from: Vec2, to: Vec2): LinePiece => ({ kind: 'line', from, to });

export const arc = (centre: Vec2, radius: number, start: number, sweep: number): ArcPiece => ({
  kind: 'arc',
  centre,
  radius,
  start,
  sweep,
});

export const pieceStart = (piece: OutlinePiece): Vec2 =>
  piece.kind === 'line' ? piece.from : onCircle(piece, piece.start);

export const pieceEnd = (piece: OutlinePiece): Vec2 =>
  piece.kind === 'line' ? piece.to : onCircle(piece, piece.start + piece.sweep);

/** The point a share of the way along a piece. */
export const pieceAt = (piece: OutlinePiece, share: number): Vec2 =>
  piece.kind === 'line'
    ? [
        piece.from[0] + share * (piece.to[0] - piece.from[0]),
        piece.from[1] + share * (piece.to[1] - piece.from[1]),
      ]
    : onCircle(piece, piece.start + share * piece.sweep);

/** Unit direction of travel a share of the way along a piece. */
export function pieceDirection(piece: OutlinePiece, share: number): Vec2 {
  if (piece.kind === 'line') {
    const [dx, dy] = [piece.to[0] - piece.from[0], piece.to[1] - piece.from[1]];
    const length = maths.hypot(dx, dy) || 1;
    return [dx / length, dy / length];
  }
  const angle = piece.start + share * piece.sweep;
  const hand = Math.sign(piece.sweep) || 1;
  return [-hand * maths.sin(angle), hand * maths.cos(angle)];
}

const onCircle = ({ centre, radius }: ArcPiece, angle: number): Vec2 => [
  centre[0] + radius * maths.cos(angle),
  centre[1] + radius * maths.sin(angle),
];

/** A circle, in four arcs beginning at its right. */
export const circleOutline = (centre: Vec2, radius: number): Outline =>
  [0, 1, 2, 3].map((i) => arc(centre, positive(radius, 'circle radius'), (i * Math.PI) / 2, Math.PI / 2));

/** Two half circles and the straights between their centres: a slot, an oval plate. */
export function obroundOutline(from: Vec2, to: Vec2, radius: number): Outline {
  positive(radius, 'obround radius');
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const length = maths.hypot(dx, dy);
  if (length === 0) return circleOutline(from, radius);
  const along = maths.atan2(dy, dx);
  const side: Vec2 = [(radius * dy) / length, (-radius * dx) / length];
  const shifted = (p: Vec2, by: number): Vec2 => [p[0] + by * side[0], p[1] + by * side[1]];
  return [
    line(shifted(from, 1), shifted(to, 1)),
    arc(to, radius, along - Math.PI / 2, Math.PI),
    line(shifted(to, -1), shifted(from, -1)),
    arc(from, radius, along + Math.PI / 2, Math.PI),
  ];
}

/** Straight pieces from corner to corner. Corners counter-clockwise; sharp: see `roundCorners`. */
export function polygonOutline(corners: readonly Vec2[]): Outline {
  if (corners.length < 3)
    throw new SolidError('bad-outline', `an outline has ${corners.length} corners; 3 are needed`);
  return corners.map((corner, i) => line(corner, corners[(i + 1) % corners.length]!));
}

/** A point to go to: straight, or along an arc about a centre. */
export type Step =
  | { readonly to: Vec2 }
  | { readonly to: Vec2; readonly centre: Vec2; readonly clockwise?: boolean };

/**
 * A closed outline from a starting point through the steps and straight back (unless the last step ends there).
 * The end of an arc must lie on its circle within 1e-6 mm.
 */
export function drawOutline(start: Vec2, steps: readonly Step[]): Outline {
  const pieces = drawChain(start, steps);
  const end = pieceEnd(pieces[pieces.length - 1]!);
  return maths.hypot(end[0] - start[0], end[1] - start[1]) < 1e-9 ? pieces : [...pieces, line(end, start)];
}

/** The same, left open. */
export function drawChain(start: Vec2, steps: readonly Step[]): Outline {
  if (steps.length === 0) throw new SolidError('bad-outline', 'an outline has no steps');
  let at = start;
  return steps.map((step) => {
    const from = at;
    at = step.to;
    return 'centre' in step
      ? arcBetween(from, step.to, step.centre, step.clockwise ?? false)
      : line(from, at);
  });
}

/** The arc about a centre from one point to another; a full circle when they are one. */
export function arcBetween(from: Vec2, to: Vec2, centre: Vec2, clockwise: boolean): ArcPiece {
  const [r0, r1] = [from, to].map((p) => maths.hypot(p[0] - centre[0], p[1] - centre[1])) as [number, number];
  if (Math.abs(r0 - r1) > 1e-6)
    throw new SolidError('bad-outline', `an arc begins ${r0} mm from its centre and ends ${r1} mm from it`);
  const start = maths.atan2(from[1] - centre[1], from[0] - centre[0]);
  const end = maths.atan2(to[1] - centre[1], to[0] - centre[0]);
  const hand = clockwise ? -1 : 1;
  let sweep = (hand * (end - start)) % (2 * Math.PI);
  if (sweep < 1e-12) sweep += 2 * Math.PI;
  return arc(centre, r0, start, hand * sweep);
}

/** The outline turned by an angle about the origin, then moved. */
export function placeOutline(outline: Outline, angle: number, by: Vec2): Outline {
  const [cos, sin] = [maths.cos(angle), maths.sin(angle)];
  const place = ([x, y]: Vec2): Vec2 => [cos * x - sin * y + by[0], sin * x + cos * y + by[1]];
  return outline.map((piece) =>
    piece.kind === 'line'
      ? line(place(piece.from), place(piece.to))
      : { ...piece, centre: place(piece.centre), start: piece.start + angle },
  );
}

/** Area enclosed, mm², exact; negative when it runs clockwise. */
export function outlineArea(outline: Outline): number {
  // Green's theorem: each piece adds ½ ∮ (x dy − y dx).
  return outline.reduce((sum, piece) => {
    const [a, b] = [pieceStart(piece), pieceEnd(piece)];
    if (piece.kind === 'line') return sum + (a[0] * b[1] - b[0] * a[1]) / 2;
    const { centre: c, radius, sweep } = piece;
    return sum + (radius * radius * sweep + c[0] * (b[1] - a[1]) - c[1] * (b[0] - a[0])) / 2;
  }, 0);
}

function positive(value: number, what: string): number {
  if (!(value > 0 && Number.isFinite(value)))
    throw new SolidError('bad-size', `${what} is ${value}; it must be greater than 0`);
  return value;
}
