import { maths } from '../maths/maths.js';
import { SolidError } from '../solid/errors.js';
import type { Vec2 } from '../solid/types.js';
import { arc, line, type Outline } from './outline.js';
import { chordsOf, outlinePoints } from './sample-outline.js';

/** How a plate's side meets its top or bottom, mm. */
export type Edge =
  | { readonly kind: 'sharp' }
  /** A quarter circle, round in the metal. */
  | { readonly kind: 'round'; readonly radius: number }
  /** A flat from `inset` inside the outline on the face to `drop` along the side (as much when left out). */
  | { readonly kind: 'bevel'; readonly inset: number; readonly drop?: number }
  /** A quarter circle hollow in the metal, that widens the plate towards the face: a fillet to what it stands on. */
  | { readonly kind: 'flare'; readonly radius: number };

export const sharpEdge: Edge = { kind: 'sharp' };
export const roundEdge = (radius: number): Edge => (radius > 0 ? { kind: 'round', radius } : sharpEdge);
export const bevelEdge = (inset: number, drop = inset): Edge =>
  inset > 0 && drop > 0 ? { kind: 'bevel', inset, drop } : sharpEdge;
export const flareEdge = (radius: number): Edge => (radius > 0 ? { kind: 'flare', radius } : sharpEdge);

/** Stock of a plate's sides and faces, mm; negative makes the body smaller, as a cutter must be. */
export interface PlateStock {
  readonly side: number;
  readonly top: number;
  readonly bottom: number;
}

export const noPlateStock: PlateStock = { side: 0, top: 0, bottom: 0 };

export interface PlateLevels {
  readonly z0: number;
  readonly z1: number;
  readonly bottomEdge: Edge;
  readonly topEdge: Edge;
}

/**
 * The profile of a plate's side from bottom to top: a chain in [outset from the outline, z], mm, moved by the stock.
 * Straight sides and faces move by their own stock; the edges lie on the parallel of the side's stock, a quarter
 * circle keeping its centre but for the difference of face and side stock along z, so that both ends join smoothly.
 *
 * @throws SolidError `bad-size` when the edges need more height than there is, or stock fills a hollow edge
 */
export function sideProfile({ z0, z1, bottomEdge, topEdge }: PlateLevels, stock: PlateStock): Outline {
  const lower = edgeChain(bottomEdge, stock.side, stock.bottom);
  const upper = edgeChain(topEdge, stock.side, stock.top);
  const side = stock.side;
  const [from, to] = [z0 - lower.reach, z1 + upper.reach];
  if (to - from < -1e-9)
    throw new SolidError(
      'bad-size',
      `a plate from z = ${z0} to ${z1} mm is ${(from - to).toPrecision(3)} mm too thin for its edges`,
    );
  const low = lower.pieces.map((piece) => lift(piece, z0, -1)).reverse();
  const high = upper.pieces.map((piece) => lift(piece, z1, 1));
  const straight = to - from > 1e-9 || low.length + high.length === 0;
  return [...low, ...(straight ? [line([side, from], [side, to])] : []), ...high];
}

/** The profile's points, [outset, z], from bottom to top, within `tolerance` mm of it. */
export function profilePoints(profile: Outline, tolerance: number): readonly Vec2[] {
  return outlinePoints(profile, chordsOf(profile, tolerance), true);
}

interface EdgeChain {
  /** From the side to the face, z counted outwards from the finished face. */
  readonly pieces: Outline;
  /** Where the side ends, counted outwards from the finished face (mostly negative), mm. */
  readonly reach: number;
}

function edgeChain(edge: Edge, side: number, face: number): EdgeChain {
  switch (edge.kind) {
    case 'sharp':
      return { pieces: [], reach: face };
    case 'round': {
      const r = edge.radius + side;
      // A cutter's stock can use the rounding up: a sharp edge is left.
      if (r <= 1e-6) return { pieces: [], reach: face };
      const z = face - r;
      return { pieces: [arc([side - r, z], r, 0, Math.PI / 2)], reach: z };
    }
    case 'flare': {
      const r = edge.radius - side;
      if (r <= 1e-6)
        throw new SolidError(
          'bad-size',
          `a stock of ${side} mm fills a hollow edge of ${edge.radius} mm; its radius must exceed the stock`,
        );
      const z = face - r;
      return { pieces: [arc([side + r, z], r, Math.PI, -Math.PI / 2)], reach: z };
    }
    case 'bevel': {
      const { inset, drop = inset } = edge;
      const length = maths.hypot(inset, drop);
      // The bevel x·drop + z·inset = −inset·drop + stock·length meets the side x = side and the face z = face,
      // where x is the outset from the finished side and z counts from the finished face.
      const along = -inset * drop + side * length;
      const z = (along - side * drop) / inset;
      const x = (along - face * inset) / drop;
      if (z >= face - 1e-9) return { pieces: [], reach: face };
      return { pieces: [line([side, z], [x, face])], reach: z };
    }
  }
}

/** A piece of an edge put at a face: mirrored and turned round for the bottom. */
function lift(piece: Outline[number], z: number, hand: 1 | -1): Outline[number] {
  if (piece.kind === 'line') {
    const [a, b] = [piece.from, piece.to].map(([x, h]): Vec2 => [x, z + hand * h]) as [Vec2, Vec2];
    return hand > 0 ? line(a, b) : line(b, a);
  }
  const centre: Vec2 = [piece.centre[0], z + hand * piece.centre[1]];
  if (hand > 0) return { ...piece, centre };
  return { ...piece, centre, start: -(piece.start + piece.sweep) };
}
