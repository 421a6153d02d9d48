import { maths } from '../../maths/maths.js';

/** Where a body is: its middle, mm, and the cosine and sine of its turn. */
export interface Spot {
  x: number;
  y: number;
  c: number;
  s: number;
}

export function spotAt(x: number, y: number, turn: number): Spot {
  return { x, y, c: maths.cos(turn), s: maths.sin(turn) };
}

export function setSpot(spot: Spot, x: number, y: number, turn: number): void {
  spot.x = x;
  spot.y = y;
  spot.c = maths.cos(turn);
  spot.s = maths.sin(turn);
}
