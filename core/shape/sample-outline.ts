import { segmentsOfCircle } from '../solid/segments.js';
import type { Polygon, Vec2 } from '../solid/types.js';
import { type Outline, type OutlinePiece, pieceAt, pieceEnd } from './outline.js';

/** Chords of each piece that stay within the tolerance, mm. */
export const chordsOf = (outline: Outline, tolerance: number): readonly number[] =>
  outline.map((piece) => pieceChords(piece, tolerance));

function pieceChords(piece: OutlinePiece, tolerance: number): number {
  if (piece.kind === 'line' || piece.radius === 0) return 1;
  const circle = segmentsOfCircle(piece.radius, tolerance);
  return Math.max(1, Math.ceil((circle * Math.abs(piece.sweep)) / (2 * Math.PI) - 1e-9));
}

/** Points of an outline, with so many chords a piece; a closed outline's last point is not repeated. */
export function outlinePoints(outline: Outline, chords: readonly number[], open = false): Vec2[] {
  const points = outline.flatMap((piece, i) =>
    Array.from({ length: chords[i]! }, (_, k) => pieceAt(piece, k / chords[i]!)),
  );
  return open ? [...points, pieceEnd(outline[outline.length - 1]!)] : points;
}

/** An outline as a polygon whose corners lie on it and whose sides stay within `tolerance` mm of it. */
export const outlinePolygon = (outline: Outline, tolerance: number): Polygon =>
  outlinePoints(outline, chordsOf(outline, tolerance));

/**
 * Polygons of several offsets of one outline whose points correspond one to one: as many chords on each piece as
 * the one that needs most.
 */
export function correspondingPolygons(outlines: readonly Outline[], tolerance: number): Polygon[] {
  const all = outlines.map((outline) => chordsOf(outline, tolerance));
  const most = outlines[0]!.map((_, i) => Math.max(...all.map((chords) => chords[i]!)));
  return outlines.map((outline) => outlinePoints(outline, most));
}
