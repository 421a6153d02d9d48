/** mm, mm and mm² */
export interface Circle {
  readonly x: number;
  readonly y: number;
  /** The radius, squared. */
  readonly squared: number;
}

/**
 * The smallest circle round points, x and y in turn: that of two of them or of three (J. Elzinga and D. Hearn, 1972),
 * found point by point (E. Welzl, 1991, in the order they come). Of no points: nothing at the origin.
 */
export function circleRound(points: ArrayLike<number>): Circle {
  const n = points.length / 2;
  let [x, y, squared] = n > 0 ? [points[0]!, points[1]!, 0] : [0, 0, 0];
  const out = (i: number): number => (points[2 * i]! - x) ** 2 + (points[2 * i + 1]! - y) ** 2;
  const holds = (i: number): boolean => out(i) <= squared * (1 + 1e-9) + 1e-12;
  for (let i = 1; i < n; i++) {
    if (holds(i)) continue;
    const [px, py] = [points[2 * i]!, points[2 * i + 1]!];
    [x, y, squared] = [px, py, 0];
    for (let j = 0; j < i; j++) {
      if (holds(j)) continue;
      const [qx, qy] = [points[2 * j]!, points[2 * j + 1]!];
      [x, y] = [(px + qx) / 2, (py + qy) / 2];
      squared = out(i);
      for (let k = 0; k < j; k++) {
        if (holds(k)) continue;
        const [ax, ay] = [qx - px, qy - py];
        const [bx, by] = [points[2 * k]! - px, points[2 * k + 1]! - py];
        const twice = 2 * (ax * by - ay * bx);
        // On one line the two farthest hold the third.
        if (Math.abs(twice) < 1e-9) continue;
        const [a, b] = [ax * ax + ay * ay, bx * bx + by * by];
        [x, y] = [px + (by * a - ay * b) / twice, py + (ax * b - bx * a) / twice];
        squared = out(i);
      }
    }
  }
  return { x, y, squared };
}
