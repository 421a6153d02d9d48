import { areaPathsD, FillRule, intersectD, type PathsD } from 'clipper2-ts';
import type { PlatePlacement } from '../job/summary.js';
import type { NestBed, NestItem } from './contract.js';
import { regionDistance } from './distance.js';
import { boundsOf, type Paths, pathsOf, turnPaths } from './outline.js';
import { roomOf, zoneDistance, zonesFor } from './room.js';

/** What is wrong with a plate. */
export interface PlateProblem {
  readonly kind:
    | 'unknown'
    | 'too-high'
    | 'outside'
    | 'in-zone'
    | 'overlap'
    | 'too-near'
    | 'brims-meet'
    | 'mixed-groups';
  /** Name and copy of the patterns it is about. */
  readonly patterns: readonly string[];
  /** mm by which it misses what is wanted; mm² of an overlap. */
  readonly by: number;
}

/** Rounding of a turn and a move, mm. */
const tolerance = 1e-6;

/**
 * Measures a plate from the outlines alone, whatever laid it: every pattern inside the margins and under the height,
 * clear of its zones, and at the gap from every other, brim from brim. Empty for a good plate.
 */
export function checkPlate(
  items: readonly NestItem[],
  bed: NestBed,
  placements: readonly PlatePlacement[],
): readonly PlateProblem[] {
  const room = roomOf(bed);
  const problems: PlateProblem[] = [];
  const known = new Map(items.map((item) => [`${item.name} ${item.copy}`, item]));
  const lying: { id: string; item: NestItem; outline: Paths; foot: Paths; around: number }[] = [];
  for (const { name, copy, x, y, turn } of placements) {
    const id = `${name} ${copy}`;
    const item = known.get(id);
    const add = (kind: PlateProblem['kind'], by: number): void => {
      if (by > tolerance) problems.push({ kind, patterns: [id], by });
    };
    if (item === undefined) {
      add('unknown', Number.POSITIVE_INFINITY);
      continue;
    }
    const place = (polygons: NestItem['outline']): Paths =>
      turnPaths(pathsOf(polygons), turn).map((path) => path.map((v, i) => v + (i % 2 === 0 ? x : y)));
    const outline = place(item.outline);
    const foot = item.foot === undefined ? outline : place(item.foot);
    lying.push({ id, item, outline, foot, around: lengthOf(outline) });
    add('too-high', item.height - bed.height);
    add('outside', Math.max(beyond(room, outline, 0), beyond(room, foot, room.brim)));
    for (const zone of zonesFor(room, item.height)) {
      add(
        'in-zone',
        Math.max(-zoneDistance(zone, outline, 0, 0), room.brim - zoneDistance(zone, foot, 0, 0)),
      );
    }
  }
  lying.forEach((a, i) => {
    for (const b of lying.slice(i + 1)) {
      const patterns = [a.id, b.id];
      const near = room.gap - regionDistance(a.outline, b.outline, 0, 0, room.gap);
      if (near > tolerance) problems.push({ kind: 'too-near', patterns, by: near });
      const common = commonArea(a.outline, b.outline);
      if (common > tolerance * (a.around + b.around))
        problems.push({ kind: 'overlap', patterns, by: common });
      const brims = room.brim === 0 ? 0 : 2 * room.brim - regionDistance(a.foot, b.foot, 0, 0, 2 * room.brim);
      if (brims > tolerance) problems.push({ kind: 'brims-meet', patterns, by: brims });
      if (a.item.group !== b.item.group) problems.push({ kind: 'mixed-groups', patterns, by: 0 });
    }
  });
  return problems;
}

/** mm by which a region grown by `by` reaches over the margin. */
function beyond(room: ReturnType<typeof roomOf>, paths: Paths, by: number): number {
  let most = Number.NEGATIVE_INFINITY;
  const { width, depth, margin } = room;
  for (const path of paths) {
    for (let i = 0; i < path.length; i += 2) {
      const [x, y] = [path[i]!, path[i + 1]!];
      const over = room.round
        ? Math.sqrt((x - width / 2) * (x - width / 2) + (y - depth / 2) * (y - depth / 2)) -
          width / 2 +
          margin
        : Math.max(margin - x, x - width + margin, margin - y, y - depth + margin);
      most = Math.max(most, over + by);
    }
  }
  return most;
}

const lengthOf = (paths: Paths): number =>
  paths.reduce((sum, path) => {
    for (let i = 0, j = path.length - 2; i < path.length; j = i, i += 2) {
      const [dx, dy] = [path[i]! - path[j]!, path[i + 1]! - path[j + 1]!];
      sum += Math.sqrt(dx * dx + dy * dy);
    }
    return sum;
  }, 0);

/** mm² that two regions share, on a lattice of 1 nm. */
function commonArea(a: Paths, b: Paths): number {
  const [p, q] = [boundsOf(a), boundsOf(b)];
  if (p.maxX <= q.minX || q.maxX <= p.minX || p.maxY <= q.minY || q.maxY <= p.minY) return 0;
  return Math.abs(areaPathsD(intersectD(pointsOf(a), pointsOf(b), FillRule.NonZero, 6)));
}

const pointsOf = (paths: Paths): PathsD =>
  paths.map((path) =>
    Array.from({ length: path.length / 2 }, (_, i) => ({ x: path[2 * i]!, y: path[2 * i + 1]! })),
  );
