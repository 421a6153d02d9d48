import { maths } from '../../core/maths/maths.js';
import { arcBetween, line, type Outline, type OutlinePiece, obroundOutline } from '../../core/shape/index.js';
import type { Vec2 } from '../../core/solid/types.js';

/**
 * Base with two round ends and sides bowed out between them: radius `end` about (±at, 0), half as wide as `half` in the
 * middle. Straight sides where the ends are as wide as the middle. mm.
 */
export function leafOutline(at: number, end: number, half: number): Outline {
  if (half - end < 1e-3) return obroundOutline([-at, 0], [at, 0], end);
  const bow = (at * at + half * half - end * end) / (2 * (half - end));
  const centre: Vec2 = [0, half - bow];
  // The bow touches the end's circle on the line through both centres.
  const far = maths.hypot(at, centre[1]);
  const touch: Vec2 = [(at * bow) / far, centre[1] + (-centre[1] * bow) / far];
  return fourfold(touch, centre, [at, 0], false);
}

/**
 * Base with four round corners of radius `corner` about (±x, ±y), straight across its ends, its long sides drawn in to
 * half the width `waist` in the middle by arcs that touch the corners; straight where there is nothing to draw in.
 */
export function waistedOutline(x: number, y: number, corner: number, waist: number): Outline {
  const drawn = y + corner - waist;
  const corners: readonly Vec2[] = [
    [x, -y],
    [x, y],
    [-x, y],
    [-x, -y],
  ];
  const hollow = drawn > 0.05 ? (x * x + (waist - y) ** 2 - corner ** 2) / (2 * drawn) : 0;
  if (hollow <= 0) {
    return corners.flatMap((c, i): OutlinePiece[] => {
      const next = corners[(i + 1) % 4]!;
      const out: Vec2 = [
        [1, 0],
        [0, 1],
        [-1, 0],
        [0, -1],
      ][i] as unknown as Vec2;
      const before: Vec2 = [
        [0, -1],
        [1, 0],
        [0, 1],
        [-1, 0],
      ][i] as unknown as Vec2;
      const from: Vec2 = [c[0] + corner * out[0], c[1] + corner * out[1]];
      const start: Vec2 = [c[0] + corner * before[0], c[1] + corner * before[1]];
      const to: Vec2 = [next[0] + corner * out[0], next[1] + corner * out[1]];
      return [arcBetween(start, from, c, false), line(from, to)];
    });
  }
  const centre: Vec2 = [0, waist + hollow];
  const far = maths.hypot(x, centre[1] - y);
  const touch: Vec2 = [x - (x * corner) / far, y + ((centre[1] - y) * corner) / far];
  return fourfold(touch, centre, [x, y], true);
}

/**
 * An outline symmetrical about both axes out of its upper right part: an arc about `end` from the right to `touch`, one
 * about `side` from there to the Y axis.
 */
function fourfold(touch: Vec2, side: Vec2, end: Vec2, hollow: boolean): Outline {
  const flipX = ([x, y]: Vec2): Vec2 => [-x, y];
  const flipY = ([x, y]: Vec2): Vec2 => [x, -y];
  const turn = ([x, y]: Vec2): Vec2 => [-x, -y];
  const top = arcBetween(touch, flipX(touch), side, hollow);
  const bottom = arcBetween(turn(touch), flipY(touch), flipY(side), hollow);
  if (end[1] === 0) {
    return [
      top,
      arcBetween(flipX(touch), turn(touch), flipX(end), false),
      bottom,
      arcBetween(flipY(touch), touch, end, false),
    ];
  }
  const radius = maths.hypot(touch[0] - end[0], touch[1] - end[1]);
  const right: Vec2 = [end[0] + radius, end[1]];
  return [
    top,
    arcBetween(flipX(touch), flipX(right), flipX(end), false),
    line(flipX(right), turn(right)),
    arcBetween(turn(right), turn(touch), turn(end), false),
    bottom,
    arcBetween(flipY(touch), flipY(right), flipY(end), false),
    line(flipY(right), right),
    arcBetween(right, touch, end, false),
  ];
}
