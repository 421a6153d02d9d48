import { circleRound } from '../shape/circle-round.js';
import type { Place } from './lone.js';
import { boundsOf, hullOf, turnPaths } from './outline.js';
import { clearsZones, type Room, slack, spanOf, zonesFor } from './room.js';
import type { Shape } from './shapes.js';

export interface Settled extends Place {
  readonly item: number;
}

/**
 * A bed's patterns brought to its middle, as one, where margins and zones allow: by their box, on a round bed also by
 * the circle round them; otherwise they stay.
 */
export function centreGroup(
  lying: readonly Settled[],
  shapeOf: (item: number) => Shape,
  room: Room,
): readonly Settled[] {
  const parts = lying.map(({ item, x, y, turn }) => {
    const shape = shapeOf(item);
    const hull = turnPaths([shape.hull], turn)[0]!;
    const foot = room.brim > 0 ? turnPaths([shape.footHull], turn)[0]! : new Float64Array();
    return { shape, x, y, turn, span: spanOf(room, hull, foot), hull };
  });
  const points = hullOf(parts.map(({ hull, x, y }) => hull.map((v, i) => v + (i % 2 === 0 ? x : y))));
  const { minX, minY, maxX, maxY } = boundsOf([points]);
  const moves = [[room.width / 2 - (minX + maxX) / 2, room.depth / 2 - (minY + maxY) / 2]];
  if (room.round) {
    const circle = circleRound(points);
    moves.push([room.width / 2 - circle.x, room.depth / 2 - circle.y]);
  }
  for (const [dx, dy] of moves as [number, number][]) {
    const isFree = parts.every(({ shape, x, y, turn, span }) => {
      const [toX, toY] = [x + dx, y + dy];
      if (toY < span.fromY - slack || toY > span.toY + slack) return false;
      const [from, to] = span.at(toY);
      if (toX < from - slack || toX > to + slack) return false;
      const zones = zonesFor(room, shape.height);
      if (zones.length === 0) return true;
      return clearsZones(
        zones,
        turnPaths(shape.outline, turn),
        turnPaths(shape.foot, turn),
        room.brim,
        toX,
        toY,
      );
    });
    if (isFree) return lying.map((l) => ({ ...l, x: l.x + dx, y: l.y + dy }));
  }
  return lying;
}
