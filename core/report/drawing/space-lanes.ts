import { maths } from '../../maths/maths.js';
import type { Box, Vec3 } from '../../solid/types.js';

export type Segment3 = readonly [Vec3, Vec3];

/** A line to stand beside a part: its ends before it is moved outward, along one axis. */
export interface LaneItem {
  readonly outward: Vec3;
  readonly ends: Segment3;
}

const dot = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const lengthOf = ([a, b]: Segment3): number => maths.hypot(b[0] - a[0], b[1] - a[1], b[2] - a[2]);

/**
 * Moves lines outward from a part's box, `lane` mm apart: the shorter ones nearer, none within most of a lane of
 * another. In the order given.
 */
export function placeLanes(items: readonly LaneItem[], bounds: Box, lane: number): readonly Segment3[] {
  const placed: Segment3[] = new Array(items.length);
  const taken: Segment3[] = [];
  const order = items.map((_, i) => i).sort((i, j) => lengthOf(items[i]!.ends) - lengthOf(items[j]!.ends));
  for (const i of order) {
    const item = items[i]!;
    for (let n = 0; ; n++) {
      const line = movedOut(item, bounds, lane * (1.25 + n));
      if (n < 24 && taken.some((other) => distanceApart(line, other) < 0.9 * lane)) continue;
      placed[i] = line;
      taken.push(line);
      break;
    }
  }
  return placed;
}

/** A line at a distance outside the box, on its outward side. */
function movedOut({ outward, ends }: LaneItem, { min, max }: Box, distance: number): Segment3 {
  const level = Math.max(dot(outward, min), dot(outward, max)) + distance;
  const move = (p: Vec3): Vec3 => {
    const by = level - dot(outward, p);
    return [p[0] + outward[0] * by, p[1] + outward[1] * by, p[2] + outward[2] * by];
  };
  return [move(ends[0]), move(ends[1])];
}

/** Between lines that run along the axes, or points: that of their boxes. */
export function distanceApart(a: Segment3, b: Segment3): number {
  let sum = 0;
  for (const k of [0, 1, 2] as const) {
    const gap = Math.max(
      Math.min(a[0][k], a[1][k]) - Math.max(b[0][k], b[1][k]),
      Math.min(b[0][k], b[1][k]) - Math.max(a[0][k], a[1][k]),
      0,
    );
    sum += gap * gap;
  }
  return Math.sqrt(sum);
}
