import { maths } from '../../maths/maths.js';
import type { Vec2 } from '../../solid/types.js';

/** Middle of the smallest circle round a few points. */
export const middleOfPoints = (points: readonly Vec2[]): Vec2 => {
  const pairs = points.flatMap((p, i) => points.slice(i).map((q) => middle(p, q)));
  const triples = points.flatMap((p, i) =>
    points.slice(i + 1).flatMap((q, j) => points.slice(i + j + 2).flatMap((r) => circumcentre(p, q, r))),
  );
  const reach = ([x, y]: Vec2): number => Math.max(...points.map((p) => maths.hypot(p[0] - x, p[1] - y)));
  // The circle is that of two of the points or of three (Elzinga and Hearn, 1972): few enough to try them all.
  return [...pairs, ...triples].reduce((a, b) => (reach(b) < reach(a) - 1e-9 ? b : a));
};

const middle = (p: Vec2, q: Vec2): Vec2 => [(p[0] + q[0]) / 2, (p[1] + q[1]) / 2];

const circumcentre = (p: Vec2, q: Vec2, r: Vec2): readonly Vec2[] => {
  const [ax, ay, bx, by] = [q[0] - p[0], q[1] - p[1], r[0] - p[0], r[1] - p[1]];
  const twice = 2 * (ax * by - ay * bx);
  if (Math.abs(twice) < 1e-9) return [];
  const [a, b] = [ax * ax + ay * ay, bx * bx + by * by];
  return [[p[0] + (by * a - ay * b) / twice, p[1] + (ax * b - bx * a) / twice]];
};
