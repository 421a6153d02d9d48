import { areaPathsD, EndType, inflatePathsD, JoinType } from 'clipper2-ts';
import type { Room } from './room.js';
import type { Shape } from './shapes.js';
import { fieldOf } from './squeeze/field.js';

/** mm² of a bed for silhouettes that are grown by half the gap: as far as that reaches over the margin. */
export function grownBed({ round, width, depth, margin, gap }: Room): number {
  if (round) return Math.PI * (width / 2 - margin + gap / 2) ** 2;
  const [w, d] = [width - 2 * margin, depth - 2 * margin];
  return w * d + (w + d) * gap + (Math.PI * gap * gap) / 4;
}

/** mm² of a silhouette grown by half the gap; its round corners are a little cut, so that it is never too large. */
export function grownArea({ outline }: Shape, gap: number): number {
  const paths = outline.map((path) =>
    Array.from({ length: path.length / 2 }, (_, i) => ({ x: path[2 * i]!, y: path[2 * i + 1]! })),
  );
  return Math.abs(
    areaPathsD(gap === 0 ? paths : inflatePathsD(paths, gap / 2, JoinType.Round, EndType.Polygon, 2, 6)),
  );
}

/**
 * No fewer beds can hold the patterns: their grown silhouettes have no more room than the bed grown likewise, and no two
 * of which the greatest discs inside them find no room on one bed together can share it.
 */
export function leastBeds(shapes: readonly Shape[], of: readonly number[], room: Room): number {
  const grown = shapes.map((shape) => grownArea(shape, room.gap));
  const area = of.reduce((sum, s) => sum + grown[s]!, 0);
  const inner = shapes.map(innerRadius);
  const radii = of.map((s) => inner[s]!).sort((a, b) => b - a);
  const [w, d] = [room.width - 2 * room.margin, room.depth - 2 * room.margin];
  const isApart = (a: number, b: number): boolean => {
    const [x, y] = [w - a - b, d - a - b];
    if (room.round) return 2 * (a + b) + room.gap > w;
    return Math.min(x, y) < 0 || x * x + y * y < (a + b + room.gap) ** 2;
  };
  let alone = 1;
  // The largest ones, as far as even the two smallest of them keep apart.
  while (alone < radii.length && isApart(radii[alone - 1]!, radii[alone]!)) alone++;
  return Math.max(1, alone, Math.ceil(area / grownBed(room) - 1e-9));
}

/** mm: a disc that lies in the silhouette, nearly the greatest. */
const innerRadius = ({ plain }: Shape): number =>
  Math.max(0, -fieldOf(plain.paths, 1).values.reduce((a, b) => Math.min(a, b), 0) - plain.error - 1e-3);
