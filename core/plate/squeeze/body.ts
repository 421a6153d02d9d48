import { maths } from '../../maths/maths.js';
import type { KeepOut } from '../contract.js';
import { boundsOf, hullOf, type Paths, simplifyPaths } from '../outline.js';
import type { Room } from '../room.js';
import type { Shape } from '../shapes.js';
import { type Field, fieldOf } from './field.js';

/** One of the regions that keep apart: silhouettes by the gap, feet by their brims. */
export interface Layer {
  /** Every corner, and points along the edges. */
  readonly fine: Edge;
  /** Fewer of them, and some inside, for the search. */
  readonly coarse: Edge;
  readonly field: Field;
  /** Corners of the hull about the middle. */
  readonly hull: Float64Array;
  /** mm from the middle to the farthest point. */
  readonly radius: number;
  /** mm from the middle to the sides of the box. */
  readonly halfX: number;
  readonly halfY: number;
}

/** Points of a boundary. */
export interface Edge {
  /** x, y about the body's middle, mm. */
  readonly points: Float64Array;
  /** mm of boundary that each stands for, one at least. */
  readonly weights: Float64Array;
}

/** A pattern, or a zone of the bed, as what others are pushed away from. */
export interface Body {
  /** Its middle in the shape's own coordinates. */
  readonly middle: readonly [number, number];
  /** The silhouette; where there are brims, the foot too. */
  readonly layers: readonly Layer[];
}

/** How far outlines may be simplified, mm, and mm between points along an edge; what it is off is measured in the end. */
const fine = { simplest: 0.05, step: 4 };
const coarse = { simplest: 0.6, step: 14 };

export function bodyOf(shape: Shape, room: Room): Body {
  const hull = hullOf([shape.hull]);
  const { minX, minY, maxX, maxY } = boundsOf([hull]);
  const middle = [(minX + maxX) / 2, (minY + maxY) / 2] as const;
  const layers = [layerOf(shape.outline, middle, room.gap)];
  if (room.brim > 0) layers.push(layerOf(shape.foot, middle, 2 * room.brim));
  return { middle, layers };
}

/** Corners that stand for a round zone. */
const corners = 48;

export function zoneBody(zone: KeepOut, room: Room): Body {
  const [w, h] = 'diameter' in zone ? [0, 0] : [zone.width, zone.depth];
  const path =
    'diameter' in zone
      ? Float64Array.from(
          Array.from({ length: corners }, (_, i) => {
            const angle = (2 * Math.PI * i) / corners;
            const r = zone.diameter / 2 / maths.cos(Math.PI / corners);
            return [zone.x + r * maths.cos(angle), zone.y + r * maths.sin(angle)];
          }).flat(),
        )
      : Float64Array.of(zone.x, zone.y, zone.x + w, zone.y, zone.x + w, zone.y + h, zone.x, zone.y + h);
  const middle = [zone.x + w / 2, zone.y + h / 2] as const;
  const layer = layerOf([path], middle, room.brim);
  return { middle, layers: room.brim > 0 ? [layer, layer] : [layer] };
}

function layerOf(outline: Paths, [mx, my]: readonly [number, number], need: number): Layer {
  const paths = simplifyPaths(outline, fine.simplest).paths.map((path) =>
    path.map((v, i) => v - (i % 2 === 0 ? mx : my)),
  );
  let [radius, halfX, halfY] = [0, 0, 0];
  for (const path of paths) {
    for (let i = 0; i < path.length; i += 2) {
      radius = Math.max(radius, path[i]! * path[i]! + path[i + 1]! * path[i + 1]!);
      halfX = Math.max(halfX, Math.abs(path[i]!));
      halfY = Math.max(halfY, Math.abs(path[i + 1]!));
    }
  }
  const field = fieldOf(paths, need + 1);
  const along = pointsAlong(simplifyPaths(paths, coarse.simplest).paths, coarse.step);
  const within = pointsWithin(field);
  return {
    fine: pointsAlong(paths, fine.step),
    coarse: {
      points: Float64Array.from([...along.points, ...within.points]),
      weights: Float64Array.from([...along.weights, ...within.weights]),
    },
    field,
    hull: hullOf(paths),
    radius: Math.sqrt(radius),
    halfX,
    halfY,
  };
}

/** mm between points inside, and how far in they are at least. */
const inside = { step: 9, depth: 2.5 };

/** Points spread inside: without them one that lies just on another like it would seem hardly to overlap. */
function pointsWithin({ x0, y0, cell, cols, rows, values }: Field): Edge {
  const points: number[] = [];
  const weights: number[] = [];
  const every = Math.max(1, Math.round(inside.step / cell));
  for (let r = Math.floor((rows % every) / 2); r < rows; r += every) {
    for (let c = Math.floor((cols % every) / 2); c < cols; c += every) {
      if (values[r * cols + c]! > -inside.depth) continue;
      points.push(x0 + c * cell, y0 + r * cell);
      weights.push(every * cell);
    }
  }
  return { points: Float64Array.from(points), weights: Float64Array.from(weights) };
}

/** The corners of the paths and points between, each with the boundary it stands for. */
function pointsAlong(paths: Paths, between: number): Edge {
  const points: number[] = [];
  const weights: number[] = [];
  for (const path of paths) {
    const n = path.length;
    for (let i = 0, j = n - 2; i < n; j = i, i += 2) {
      const [dx, dy] = [path[i]! - path[j]!, path[i + 1]! - path[j + 1]!];
      const length = Math.sqrt(dx * dx + dy * dy);
      const parts = Math.max(1, Math.ceil(length / between));
      for (let k = 1; k <= parts; k++) {
        points.push(path[j]! + (dx * k) / parts, path[j + 1]! + (dy * k) / parts);
        weights.push(Math.max(1, length / parts));
      }
    }
  }
  return { points: Float64Array.from(points), weights: Float64Array.from(weights) };
}
