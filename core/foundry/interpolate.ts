/** Straight lines between points, [x, y] by rising x; level before the first and after the last. At least one point. */
export function interpolate(points: readonly (readonly [x: number, y: number])[], x: number): number {
  for (let i = 1; i < points.length; i++) {
    const [[x0, y0], [x1, y1]] = [points[i - 1]!, points[i]!];
    if (x <= x1) return x1 > x0 ? y0 + ((y1 - y0) * Math.max(0, x - x0)) / (x1 - x0) : y0;
  }
  return points.at(-1)![1];
}
