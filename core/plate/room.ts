import type { KeepOut, NestBed } from './contract.js';
import { boundsOf, type Paths } from './outline.js';

/** A bed with everything said. */
export interface Room extends Omit<Required<NestBed>, 'shape'> {
  readonly round: boolean;
}

export const defaultGap = 3;

/** Rounding slack in mm: far below what a printer resolves, far above what float64 loses. */
export const slack = 1e-7;

export const roomOf = (bed: NestBed): Room => ({
  round: bed.shape === 'circle',
  width: bed.width,
  depth: bed.depth,
  height: bed.height,
  margin: bed.margin,
  gap: bed.gap ?? defaultGap,
  brim: bed.brim ?? 0,
  keepOuts: bed.keepOuts ?? [],
});

/** @throws RangeError for sizes that are not finite and positive, margins that use them up, and the like. */
export function checkBed(bed: NestBed): void {
  const { width, depth, height, margin, gap, brim, keepOuts, round } = roomOf(bed);
  for (const [name, value] of Object.entries({ width, depth, height })) {
    if (!(Number.isFinite(value) && value > 0)) {
      throw new RangeError(`bed ${name} is ${value} mm; a positive length is wanted`);
    }
  }
  if (round && width !== depth) {
    throw new RangeError(`a round bed is ${width} × ${depth} mm; width and depth are both its diameter`);
  }
  if (!(Number.isFinite(gap) && gap >= 0)) throw new RangeError(`gap is ${gap} mm; 0 or more is wanted`);
  if (!(Number.isFinite(brim) && brim >= 0)) throw new RangeError(`brim is ${brim} mm; 0 or more is wanted`);
  const most = Math.min(width, depth) / 2;
  if (!(margin >= 0 && margin < most)) {
    throw new RangeError(`bed margin is ${margin} mm; from 0 to less than ${most} mm is wanted`);
  }
  keepOuts.forEach((zone, i) => {
    const sizes = 'diameter' in zone ? [zone.diameter] : [zone.width, zone.depth];
    const at = [zone.x, zone.y, zone.above ?? 0];
    if (!sizes.every((s) => Number.isFinite(s) && s > 0) || !at.every(Number.isFinite)) {
      throw new RangeError(`keep-out zone ${i + 1} has no finite place and positive size`);
    }
  });
}

/** mm² inside the margin. */
export const roomArea = ({ round, width, depth, margin }: Room): number =>
  round ? Math.PI * (width / 2 - margin) ** 2 : (width - 2 * margin) * (depth - 2 * margin);

/** The zones that keep out a pattern of this height. */
export const zonesFor = (room: Room, height: number): readonly KeepOut[] =>
  room.keepOuts.filter(({ above }) => above === undefined || height > above + slack);

/** From where to where a pattern may be moved along x, at each y, so that it stays inside the margins. */
export interface Span {
  /** Of the move along y. */
  readonly fromY: number;
  readonly toY: number;
  /** Of the move along x at `y`: from, to; from > to where there is none. */
  at(y: number): readonly [number, number];
}

/** `outline` and `foot` need only hold the corners of their hulls. */
export function spanOf(room: Room, outline: Float64Array, foot: Float64Array): Span {
  const { brim } = room;
  if (room.round) return roundSpan(room, outline, foot);
  const a = boundsOf([outline]);
  const b = foot.length === 0 ? a : boundsOf([foot]);
  const minX = Math.min(a.minX, b.minX - brim);
  const maxX = Math.max(a.maxX, b.maxX + brim);
  const minY = Math.min(a.minY, b.minY - brim);
  const maxY = Math.max(a.maxY, b.maxY + brim);
  const { margin, width, depth } = room;
  const span = [margin - minX, width - margin - maxX] as const;
  return { fromY: margin - minY, toY: depth - margin - maxY, at: () => span };
}

function roundSpan(room: Room, outline: Float64Array, foot: Float64Array): Span {
  const centre = room.width / 2;
  const radius = centre - room.margin;
  const sets: readonly (readonly [Float64Array, number])[] = [
    [outline, radius],
    [foot, radius - room.brim],
  ];
  let fromY = Number.NEGATIVE_INFINITY;
  let toY = Number.POSITIVE_INFINITY;
  for (const [points, r] of sets) {
    for (let i = 0; i < points.length; i += 2) {
      fromY = Math.max(fromY, centre - r - points[i + 1]!);
      toY = Math.min(toY, centre + r - points[i + 1]!);
    }
  }
  const at = (y: number): readonly [number, number] => {
    let from = Number.NEGATIVE_INFINITY;
    let to = Number.POSITIVE_INFINITY;
    for (const [points, r] of sets) {
      for (let i = 0; i < points.length; i += 2) {
        const dy = points[i + 1]! + y - centre;
        const half = r * r - dy * dy;
        // A corner that touches the edge by rounding alone stays.
        if (r < 0 || half < -slack * r) return [1, 0];
        const dx = Math.sqrt(Math.max(0, half));
        from = Math.max(from, centre - dx - points[i]!);
        to = Math.min(to, centre + dx - points[i]!);
      }
    }
    return [from, to];
  };
  return { fromY, toY, at };
}

/** Whether a pattern moved by (x, y) keeps out of the zones; `brim` is grown round its foot. */
export function clearsZones(
  zones: readonly KeepOut[],
  outline: Paths,
  foot: Paths,
  brim: number,
  x: number,
  y: number,
): boolean {
  return zones.every(
    (zone) => zoneDistance(zone, outline, x, y) >= -slack && zoneDistance(zone, foot, x, y) >= brim - slack,
  );
}

/** mm from the zone to the region moved by (x, y); less than 0 where they overlap. */
export function zoneDistance(zone: KeepOut, paths: Paths, x: number, y: number): number {
  let least = Number.POSITIVE_INFINITY;
  const round = 'diameter' in zone;
  const [cx, cy] = round ? [zone.x, zone.y] : [zone.x + zone.width / 2, zone.y + zone.depth / 2];
  const [hw, hd] = round ? [0, 0] : [zone.width / 2, zone.depth / 2];
  const radius = round ? zone.diameter / 2 : 0;
  let inside = false;
  for (const path of paths) {
    const n = path.length;
    for (let i = 0, j = n - 2; i < n; j = i, i += 2) {
      const ax = path[j]! + x - cx;
      const ay = path[j + 1]! + y - cy;
      const bx = path[i]! + x - cx;
      const by = path[i + 1]! + y - cy;
      least = Math.min(
        least,
        round ? pointToSegment(ax, ay, bx, by) - radius : boxToSegment(ax, ay, bx, by, hw, hd),
      );
      if (ay > 0 !== by > 0 && ax + ((bx - ax) * -ay) / (by - ay) > 0) inside = !inside;
    }
  }
  return inside ? Math.min(least, -1) : least;
}

function pointToSegment(ax: number, ay: number, bx: number, by: number): number {
  const [dx, dy] = [bx - ax, by - ay];
  const length = dx * dx + dy * dy;
  const t = length === 0 ? 0 : Math.min(1, Math.max(0, -(ax * dx + ay * dy) / length));
  const [x, y] = [ax + t * dx, ay + t * dy];
  return Math.sqrt(x * x + y * y);
}

/** From the box −hw … hw, −hd … hd; where they cross, minus the length of the way inside. */
function boxToSegment(ax: number, ay: number, bx: number, by: number, hw: number, hd: number): number {
  const [dx, dy] = [bx - ax, by - ay];
  let from = 0;
  let to = 1;
  for (const [p, d, half] of [
    [ax, dx, hw],
    [ay, dy, hd],
  ] as const) {
    if (d === 0) {
      if (Math.abs(p) >= half) to = -1;
      continue;
    }
    const [t0, t1] = [(-half - p) / d, (half - p) / d];
    from = Math.max(from, Math.min(t0, t1));
    to = Math.min(to, Math.max(t0, t1));
  }
  if (to > from) return -(to - from) * Math.sqrt(dx * dx + dy * dy);
  const ends = [
    [ax, ay],
    [bx, by],
  ].map(([px, py]) => {
    const [ex, ey] = [Math.max(0, Math.abs(px!) - hw), Math.max(0, Math.abs(py!) - hd)];
    return Math.sqrt(ex * ex + ey * ey);
  });
  const corners = [
    [-hw, -hd],
    [hw, -hd],
    [hw, hd],
    [-hw, hd],
  ].map(([px, py]) => pointToSegment(ax - px!, ay - py!, bx - px!, by - py!));
  return Math.min(...ends, ...corners);
}
