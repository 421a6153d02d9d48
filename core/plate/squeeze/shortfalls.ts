import { regionDistance } from '../distance.js';
import { type Paths, turnPaths } from '../outline.js';
import { type Room, slack, spanOf, zoneDistance, zonesFor } from '../room.js';
import type { Shape } from '../shapes.js';

/** A pattern at its place on a bed. */
export interface Placed {
  readonly shape: Shape;
  readonly x: number;
  readonly y: number;
  readonly turn: number;
}

/** Two that are so much too near each other, mm; one with itself: the edge or its zones. */
export interface Shortfall {
  readonly a: number;
  readonly b: number;
  readonly by: number;
}

/** What true outlines at their places miss of their distances: none where the bed holds. */
export function shortfalls(bed: readonly Placed[], room: Room): readonly Shortfall[] {
  const found: Shortfall[] = [];
  const note = (a: number, b: number, by: number): void => {
    if (by > 0) found.push({ a, b, by });
  };
  const lying = bed.map(({ shape, x, y, turn }) => {
    const at = (paths: Paths): Paths =>
      turnPaths(paths, turn).map((path) => path.map((v, i) => v + (i % 2 === 0 ? x : y)));
    return { outline: at(shape.outline), foot: room.brim > 0 ? at(shape.foot) : [] };
  });
  bed.forEach(({ shape, x, y, turn }, i) => {
    note(i, i, outside(shape, x, y, turn, room));
    const { outline, foot } = lying[i]!;
    for (const zone of zonesFor(room, shape.height)) {
      note(i, i, strictly(zoneDistance(zone, outline, 0, 0), 0));
      if (room.brim > 0) note(i, i, strictly(zoneDistance(zone, foot, 0, 0), room.brim));
    }
    for (let j = i + 1; j < bed.length; j++) {
      const other = lying[j]!;
      note(i, j, strictly(regionDistance(outline, other.outline, 0, 0, room.gap + slack), room.gap));
      if (room.brim > 0) {
        note(i, j, strictly(regionDistance(foot, other.foot, 0, 0, 2 * room.brim + slack), 2 * room.brim));
      }
    }
  });
  return found;
}

/** Where nothing is lacking 0, and never 0 for what touches or overlaps, of which a distance says no more. */
const strictly = (distance: number, need: number): number =>
  distance <= 0 ? Math.max(need, 0.05) : Math.max(0, need - distance);

function outside(shape: Shape, x: number, y: number, turn: number, room: Room): number {
  const hull = turnPaths([shape.hull], turn)[0]!;
  const foot = room.brim > 0 ? turnPaths([shape.footHull], turn)[0]! : new Float64Array();
  const span = spanOf(room, hull, foot);
  const [from, to] = span.at(y);
  if (from > to) return 0.05;
  return Math.max(0, span.fromY - y, y - span.toY, from - x, x - to);
}
