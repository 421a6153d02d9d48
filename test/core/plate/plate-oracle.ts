/**
 * Measures plates by itself: shares no code with `core/plate`. Overlaps are areas by polygon-clipping, distances are
 * taken segment by segment.
 */
import polygonClipping, { type MultiPolygon, type Ring } from 'polygon-clipping';
import type { NestBed, NestItem, NestResult } from '../../../core/plate/index.js';

type Point = readonly [number, number];
type Rings = readonly (readonly Point[])[];

const place = (rings: Rings, p: { x: number; y: number; turn: number }): Rings =>
  rings.map((ring) =>
    ring.map(([x, y]) => [
      x * Math.cos(p.turn) - y * Math.sin(p.turn) + p.x,
      x * Math.sin(p.turn) + y * Math.cos(p.turn) + p.y,
    ]),
  );

const signedArea = (ring: readonly Point[]): number =>
  ring.reduce((sum, [x, y], i) => {
    const [nx, ny] = ring[(i + 1) % ring.length]!;
    return sum + (x * ny - nx * y) / 2;
  }, 0);

/** Outlines joined, holes taken out. */
function region(rings: Rings): MultiPolygon {
  const copy = (ring: readonly Point[]): [Ring] => [ring.map(([x, y]) => [x, y])];
  const solid = rings.filter((r) => signedArea(r) > 0).map(copy);
  const holes = rings.filter((r) => signedArea(r) < 0).map(copy);
  const whole = polygonClipping.union(solid as MultiPolygon);
  return holes.length === 0 ? whole : polygonClipping.difference(whole, holes as MultiPolygon);
}

const areaOf = (polygons: MultiPolygon): number =>
  polygons.reduce(
    (sum, [outer, ...holes]) =>
      sum +
      Math.abs(signedArea(outer as Point[])) -
      holes.reduce((h, r) => h + Math.abs(signedArea(r as Point[])), 0),
    0,
  );

export const commonArea = (a: Rings, b: Rings): number =>
  areaOf(polygonClipping.intersection(region(a), region(b)));

function pointToSegment([px, py]: Point, [ax, ay]: Point, [bx, by]: Point): number {
  const [dx, dy] = [bx - ax, by - ay];
  const along = dx * dx + dy * dy;
  const t = along === 0 ? 0 : Math.max(0, Math.min(1, ((px - ax) * dx + (py - ay) * dy) / along));
  return Math.hypot(px - ax - t * dx, py - ay - t * dy);
}

const edges = (rings: Rings): (readonly [Point, Point])[] =>
  rings.flatMap((ring) => ring.map((p, i) => [p, ring[(i + 1) % ring.length]!] as const));

/** mm between boundaries that do not cross. */
export function edgeDistance(a: Rings, b: Rings): number {
  let least = Number.POSITIVE_INFINITY;
  const other = edges(b);
  for (const [p, q] of edges(a)) {
    for (const [r, s] of other) {
      least = Math.min(
        least,
        pointToSegment(p, r, s),
        pointToSegment(q, r, s),
        pointToSegment(r, p, q),
        pointToSegment(s, p, q),
      );
    }
  }
  return least;
}

/** A circle as a polygon inside it, an even number of corners. */
export const roundRing = (x: number, y: number, radius: number, corners = 48): readonly Point[] =>
  Array.from({ length: corners }, (_, i): Point => {
    const turn = (2 * Math.PI * i) / corners;
    return [x + radius * Math.cos(turn), y + radius * Math.sin(turn)];
  });

/** Everything wrong with the plates of a result, in words; lengths in mm beyond rounding. */
export function faultsOf(
  items: readonly NestItem[],
  bed: NestBed,
  { plates, refused, groups }: NestResult,
): string[] {
  const faults: string[] = [];
  const eps = 2e-6;
  const gap = bed.gap ?? 3;
  const brim = bed.brim ?? 0;
  const round = bed.shape === 'circle';
  const seen = new Map<string, number>();
  plates.forEach((plate, k) => {
    if (plate.length === 0) faults.push(`plate ${k} is empty`);
    const order = plate.map((p) => items.findIndex((i) => i.name === p.name && i.copy === p.copy));
    if (order.some((o, i) => i > 0 && o <= order[i - 1]!)) faults.push(`plate ${k} is out of order`);
    const lying = plate.map((p, i) => {
      const item = items[order[i]!]!;
      const id = `${p.name} ${p.copy}`;
      seen.set(id, (seen.get(id) ?? 0) + 1);
      if (item.group !== groups[k]) faults.push(`${id} lies on a plate of another group`);
      if (item.height > bed.height + eps) faults.push(`${id} is too high`);
      return { id, item, outline: place(item.outline, p), foot: place(item.foot ?? item.outline, p) };
    });
    const outside = (points: readonly Point[], grown: number): number =>
      Math.max(
        ...points.map(([x, y]) =>
          round
            ? Math.hypot(x - bed.width / 2, y - bed.width / 2) + grown - (bed.width / 2 - bed.margin)
            : Math.max(
                bed.margin - x + grown,
                bed.margin - y + grown,
                x + grown - bed.width + bed.margin,
                y + grown - bed.depth + bed.margin,
              ),
        ),
      );
    lying.forEach((a, i) => {
      const over = Math.max(outside(a.outline.flat(), 0), outside(a.foot.flat(), brim));
      if (over > eps) faults.push(`${a.id} reaches ${over} mm over the margin`);
      for (const zone of bed.keepOuts ?? []) {
        if (zone.above !== undefined && a.item.height <= zone.above) continue;
        const ring: readonly Point[] =
          'diameter' in zone
            ? roundRing(zone.x, zone.y, zone.diameter / 2, 96)
            : [
                [zone.x, zone.y],
                [zone.x + zone.width, zone.y],
                [zone.x + zone.width, zone.y + zone.depth],
                [zone.x, zone.y + zone.depth],
              ];
        const common = commonArea(a.outline, [ring]) + commonArea(a.foot, [ring]);
        if (common > 1e-4) faults.push(`${a.id} lies in a zone by ${common} mm²`);
        if (brim > 0 && edgeDistance(a.foot, [ring]) < brim - 1e-3)
          faults.push(`the brim of ${a.id} is in a zone`);
      }
      for (const b of lying.slice(i + 1)) {
        const common = commonArea(a.outline, b.outline);
        if (common > 1e-4) faults.push(`${a.id} and ${b.id} overlap by ${common} mm²`);
        const distance = edgeDistance(a.outline, b.outline);
        if (distance < gap - eps) faults.push(`${a.id} and ${b.id} are ${distance} mm apart`);
        const feet = brim > 0 ? edgeDistance(a.foot, b.foot) : Number.POSITIVE_INFINITY;
        if (feet < 2 * brim - eps) faults.push(`the brims of ${a.id} and ${b.id} meet`);
      }
    });
  });
  for (const { name, copy } of items) {
    const times = seen.get(`${name} ${copy}`) ?? 0;
    const isRefused = refused.some((r) => r.name === name && r.copies.includes(copy));
    if (times !== (isRefused ? 0 : 1)) faults.push(`${name} ${copy} is placed ${times} times`);
  }
  return faults;
}
