import { maths } from '../../core/maths/maths.js';
import type { Outline } from '../../core/shape/index.js';
import { outlineDistance } from '../../core/shape/outline-distance.js';
import type { Vec2 } from '../../core/solid/types.js';

/** A flat with less room than this, mm of radius, is no place for a gate. */
export const leastRoom = 0.5;

/** A circle on a flat face, mm. */
export interface Circle {
  readonly at: Vec2;
  readonly radius: number;
}

/** Kept between the rim of a gate or vent and the edge of the flat it stands on, mm. */
const margin = 0.08;

/**
 * Room on a flat face: radius of the largest circle about a point that stays inside the outline and out of openings
 * and circles, less a small margin; mm, negative outside.
 */
export function flatRoom(
  outline: Outline,
  openings: readonly Outline[] = [],
  circles: readonly Circle[] = [],
): (x: number, y: number) => number {
  const edge = outlineDistance(outline);
  const holes = openings.map((opening) => outlineDistance(opening));
  const scratch = new Float64Array(3);
  return (x, y) =>
    Math.min(
      -edge(x, y, scratch),
      ...holes.map((hole) => hole(x, y, scratch)),
      ...circles.map(({ at, radius }) => maths.hypot(x - at[0], y - at[1]) - radius),
    ) - margin;
}

/** Whatever of an area is looked through for the roomiest place: a line where `y` is one value, else a rectangle. mm */
export interface SearchArea {
  readonly x: readonly [number, number];
  readonly y: readonly [number, number];
}

/** The roomiest place of an area, no larger than `most` counts: then the nearest to the area's first corner. */
export function roomiest(
  room: (x: number, y: number) => number,
  { x, y }: SearchArea,
  most = Number.POSITIVE_INFINITY,
): Circle {
  const steps = (from: number, to: number, largest: number): number =>
    to === from ? 0 : Math.min(largest, Math.ceil(Math.abs(to - from) / 0.25));
  const line = x[0] === x[1] || y[0] === y[1];
  const [nx, ny] = [steps(x[0], x[1], line ? 400 : 60), steps(y[0], y[1], line ? 400 : 60)];
  let best: { at: Vec2; radius: number } = { at: [x[0], y[0]], radius: 0 };
  for (let i = 0; i <= nx; i++) {
    for (let j = 0; j <= ny; j++) {
      const at: Vec2 = [
        x[0] + (nx === 0 ? 0 : (i / nx) * (x[1] - x[0])),
        y[0] + (ny === 0 ? 0 : (j / ny) * (y[1] - y[0])),
      ];
      const radius = Math.min(room(at[0], at[1]), most);
      if (radius > best.radius + 1e-6) best = { at, radius };
    }
  }
  return best;
}
