import { maths } from '../maths/maths.js';
import { circleRound } from '../shape/circle-round.js';
import { boundsOf, hullOf, turnPaths } from './outline.js';
import { firstFree, isSet } from './raster/bits.js';
import { clearsZones, type Room, slack, spanOf, zonesFor } from './room.js';
import type { Shape } from './shapes.js';
import { setTable } from './table.js';
import { bestFit, sizeAt, turnsFor } from './turns.js';

export interface Place {
  readonly x: number;
  readonly y: number;
  readonly turn: number;
}

/** Too large by so much, mm, at its best turn; or the zones leave no place. */
export interface NoPlace {
  readonly turn: number;
  readonly size: { readonly width: number; readonly depth: number };
  readonly overBy: { readonly width: number; readonly depth: number; readonly height: number };
}

/**
 * Where a pattern goes that has a bed to itself: straight in the middle, else where and at what turn it fits, as near
 * the middle as may be.
 */
export function placeAlone(shape: Shape, room: Room): Place | NoPlace {
  const high = shape.height - room.height;
  const height = high > slack ? high : 0;
  const fit = room.round ? roundFit(shape, room) : { ...bestFit(shape, room), centre: null };
  const [width, depth] = fit.over;
  if (width + depth + height > 0) {
    return { turn: fit.turn, size: { width: fit.width, depth: fit.depth }, overBy: { width, depth, height } };
  }
  const zones = zonesFor(room, shape.height);
  for (const turn of fit.turn === 0 ? [0] : [0, fit.turn]) {
    for (const place of middlePlaces(shape, room, turn)) {
      const outline = turnPaths(shape.outline, turn);
      const foot = turnPaths(shape.foot, turn);
      if (clearsZones(zones, outline, foot, room.brim, place.x, place.y)) return place;
    }
  }
  const found = zones.length === 0 ? null : searchPlace(shape, room, fit.turn);
  return found ?? { turn: 0, size: sizeAt(shape, 0, room.brim), overBy: { width: 0, depth: 0, height: 0 } };
}

/** In the middle of the bed by its box, moved as little as the margins ask; on a round bed also by its circle. */
function middlePlaces(shape: Shape, room: Room, turn: number): readonly Place[] {
  const hull = turnPaths([shape.hull], turn)[0]!;
  const footHull = turnPaths([shape.footHull], turn)[0]!;
  const span = spanOf(room, hull, room.brim > 0 ? footHull : new Float64Array());
  const box = boundsOf([hull]);
  const circle = circleRound(reachOf(hull, footHull, room.brim));
  const middles = [
    [(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2],
    ...(room.round ? [[circle.x, circle.y]] : []),
  ];
  const places: Place[] = [];
  for (const [mx, my] of middles) {
    const y = clamp(room.depth / 2 - my!, span.fromY, span.toY);
    const [from, to] = span.at(y);
    if (from > to + slack || span.fromY > span.toY + slack) continue;
    places.push({ x: clamp(room.width / 2 - mx!, from, to), y, turn });
  }
  return places;
}

const clamp = (v: number, from: number, to: number): number =>
  to < from ? (from + to) / 2 : Math.min(to, Math.max(from, v));

/** Corners that stand for the circle of a brim. */
const brimCorners = 32;

/** The corners of the hull, and of polygons about the brim round each corner of the foot. */
function reachOf(hull: Float64Array, foot: Float64Array, brim: number): Float64Array {
  if (brim === 0 || foot.length === 0) return hull;
  const out = [...hull];
  const about = brim / maths.cos(Math.PI / brimCorners);
  for (let i = 0; i < foot.length; i += 2) {
    for (let k = 0; k < brimCorners; k++) {
      const angle = (2 * Math.PI * k) / brimCorners;
      out.push(foot[i]! + about * maths.cos(angle), foot[i + 1]! + about * maths.sin(angle));
    }
  }
  return hullOf([Float64Array.from(out)]);
}

function roundFit(shape: Shape, room: Room) {
  const across = 2 * Math.sqrt(circleRound(reachOf(shape.hull, shape.footHull, room.brim)).squared);
  const over = across - (room.width - 2 * room.margin);
  const by = over > slack ? over : 0;
  return { turn: 0, width: across, depth: across, over: [by, by] as const };
}

/** Cells along the bed, and turns, of the search between zones. */
const fineCells = 400;
const fineTurns = 72;

function searchPlace(shape: Shape, room: Room, fitTurn: number): Place | null {
  const turns = turnsFor(shape, fineTurns, fitTurn === 0 ? null : bestFit(shape, room));
  const table = setTable(
    room,
    [shape],
    { cell: Math.max(room.width, room.depth) / fineCells, fine: 1 },
    () => turns,
    false,
  );
  for (const turned of table.turned[0]!) {
    const box = boundsOf(turnPaths([shape.hull], turned.turn));
    const [wantX, wantY] = [(room.width - box.minX - box.maxX) / 2, (room.depth - box.minY - box.maxY) / 2];
    let best: Place | null = null;
    let nearest = Number.POSITIVE_INFINITY;
    for (let row = 0; row < table.rows; row++) {
      const first = firstFree(turned.barred, row);
      if (first < 0) continue;
      const y = table.y0 + row * table.cell - turned.front;
      for (let col = first; col < table.cols; col++) {
        if (isSet(turned.barred, col, row)) continue;
        const x = table.x0 + col * table.cell - turned.left;
        const away = (x - wantX) * (x - wantX) + (y - wantY) * (y - wantY);
        if (away < nearest) [best, nearest] = [{ x, y, turn: turned.turn }, away];
      }
    }
    if (best !== null) return best;
  }
  return null;
}
