import { distanceOf, dot, minus, times } from '../../shape/vector.js';
import type { Vec3 } from '../../solid/types.js';
import { axisDistance, fitCylinder, outwardness } from './cylinder-fit.js';
import { planeThrough } from './plane-fit.js';
import { normalOf, type Sheet, vertexOf } from './sheet.js';
import type { Candidate, CylinderCandidate, PlaneCandidate } from './surface.js';

/** Cosine of 1°. */
const sameWay = 0.99985;

/** Pieces of one plane that look the same way, and of one cylinder, taken together; each fitted anew by all its corners. */
export function joinPieces(sheet: Sheet, found: readonly Candidate[]): Candidate[] {
  const areaOf = new Map(found.map((c) => [c, c.triangles.reduce((s, f) => s + sheet.areas[f]!, 0)]));
  const ordered = [...found].sort(
    (a, b) => areaOf.get(b)! - areaOf.get(a)! || a.triangles[0]! - b.triangles[0]!,
  );
  const planes: Group<PlaneCandidate>[] = [];
  const cylinders: Group<CylinderCandidate>[] = [];
  for (const piece of ordered) {
    if (piece.kind === 'plane') {
      const closeness = stray(sheet, piece);
      const group = planes.find(({ first, close }) => isSamePlane(first, piece, close + closeness));
      if (group) group.pieces.push(piece);
      else planes.push({ first: piece, pieces: [piece], close: closeness, side: 0 });
    } else {
      const closeness = stray(sheet, piece);
      const side = sideOf(sheet, piece);
      const group = cylinders.find(
        (g) => g.side === side && isSameCylinder(g.first, piece, g.close + closeness),
      );
      if (group) group.pieces.push(piece);
      else cylinders.push({ first: piece, pieces: [piece], close: closeness, side });
    }
  }
  return [...planes.map(joinPlanes), ...cylinders.map(joinCylinders)];
}

interface Group<T> {
  /** The largest piece. */
  readonly first: T;
  readonly pieces: T[];
  /** How far the first strays, mm. */
  readonly close: number;
  /** 1 for a boss, −1 for a hole. */
  readonly side: number;
}

/** How near another piece must come, mm: rounding, or the scatter of a scan. */
function stray(sheet: Sheet, piece: Candidate): number {
  const measure = heightOver(piece);
  let sum = 0;
  for (let i = 0; i < piece.points.length; i += 3)
    sum += measure(piece.points[i]!, piece.points[i + 1]!, piece.points[i + 2]!) ** 2;
  return Math.max(3 * sheet.exact, 1.5 * Math.sqrt(sum / Math.max(1, piece.points.length / 3)));
}

/** Signed distance from a piece's ideal surface, mm. */
export function heightOver(piece: Candidate): (x: number, y: number, z: number) => number {
  if (piece.kind === 'plane') {
    const plane = planeThrough(piece.points, piece.normal);
    return (x, y, z) => plane.height(x, y, z);
  }
  return (x, y, z) => axisDistance(piece.cylinder, x, y, z) - piece.cylinder.radius;
}

export function sideOf(sheet: Sheet, { triangles, cylinder }: CylinderCandidate): number {
  let sum = 0;
  for (const f of triangles) {
    const at = vertexOf(sheet, sheet.corners[3 * f]!);
    sum += sheet.areas[f]! * outwardness(cylinder, at, normalOf(sheet, f));
  }
  return sum < 0 ? -1 : 1;
}

function isSamePlane(a: PlaneCandidate, b: PlaneCandidate, close: number): boolean {
  if (dot(a.normal, b.normal) < sameWay) return false;
  const [from, to] = [middle(a.points), middle(b.points)];
  return Math.abs(dot(a.normal, minus(to, from))) <= close;
}

function isSameCylinder(a: CylinderCandidate, b: CylinderCandidate, close: number): boolean {
  if (Math.abs(dot(a.cylinder.direction, b.cylinder.direction)) < sameWay) return false;
  // A short arc knows its own radius badly; what counts is whether it lies on the larger piece's cylinder.
  if (Math.abs(a.cylinder.radius - b.cylinder.radius) > 0.05 * a.cylinder.radius + close) return false;
  for (let i = 0; i < b.points.length; i += 3)
    if (
      Math.abs(
        axisDistance(a.cylinder, b.points[i]!, b.points[i + 1]!, b.points[i + 2]!) - a.cylinder.radius,
      ) >
      2 * close
    )
      return false;
  return distanceOf(nearestOnAxis(a, b), b.cylinder.point) <= Math.max(close, 0.05 * a.cylinder.radius);
}

/** The foot of the other's point on this one's axis. */
function nearestOnAxis({ cylinder: { point, direction } }: CylinderCandidate, b: CylinderCandidate): Vec3 {
  const along = times(direction, dot(minus(b.cylinder.point, point), direction));
  return [point[0] + along[0], point[1] + along[1], point[2] + along[2]];
}

function middle(points: Float64Array): Vec3 {
  const sum: [number, number, number] = [0, 0, 0];
  for (let i = 0; i < points.length; i++) sum[i % 3]! += points[i]!;
  return times(sum, 3 / Math.max(3, points.length));
}

const allPoints = (pieces: readonly Candidate[]): Float64Array => {
  const points = new Float64Array(pieces.reduce((s, p) => s + p.points.length, 0));
  let at = 0;
  for (const piece of pieces) {
    points.set(piece.points, at);
    at += piece.points.length;
  }
  return points;
};

function joinPlanes({ first, pieces }: Group<PlaneCandidate>): PlaneCandidate {
  const points = allPoints(pieces);
  const { normal } = planeThrough(points, first.normal);
  return { kind: 'plane', triangles: pieces.flatMap((p) => [...p.triangles]), normal, points };
}

function joinCylinders({ first, pieces }: Group<CylinderCandidate>): CylinderCandidate {
  if (pieces.length === 1) return first;
  const points = allPoints(pieces);
  const cylinder = fitCylinder(points, first.cylinder, 8) ?? first.cylinder;
  return { kind: 'cylinder', triangles: pieces.flatMap((p) => [...p.triangles]), cylinder, points };
}
