/** Pairs of steps and changes of slope that are remembered. */
const memory = 6;
/** The first step, mm, and what share of the expected gain a step must bring. */
const firstStep = 1;
const enough = 1e-4;

/**
 * Goes downhill from `at`, which is changed, for so many steps or until nothing is gained; what is reached. `slope`
 * gives the height at a place and writes the gradient. Source: J. Nocedal, "Updating quasi-Newton matrices with limited
 * storage", 1980.
 */
export function descend(
  at: Float64Array,
  slope: (at: Float64Array, into: Float64Array) => number,
  steps: number,
  goal: number,
): number {
  const n = at.length;
  let gradient: Float64Array = new Float64Array(n);
  let next: Float64Array = new Float64Array(n);
  const way = new Float64Array(n);
  const from = new Float64Array(n);
  const moves: { readonly s: Float64Array; readonly y: Float64Array; readonly by: number }[] = [];
  const alphas = new Float64Array(memory);
  let height = slope(at, gradient);
  for (let k = 0; k < steps && height > goal; k++) {
    for (let i = 0; i < n; i++) way[i] = -gradient[i]!;
    for (let m = moves.length - 1; m >= 0; m--) {
      const { s, y, by } = moves[m]!;
      const alpha = dot(s, way) * by;
      alphas[m] = alpha;
      for (let i = 0; i < n; i++) way[i] = way[i]! - alpha * y[i]!;
    }
    const newest = moves.at(-1);
    const scale =
      newest === undefined
        ? firstStep / Math.max(1e-12, Math.sqrt(dot(way, way)))
        : 1 / (newest.by * dot(newest.y, newest.y));
    for (let i = 0; i < n; i++) way[i] = way[i]! * scale;
    for (let m = 0; m < moves.length; m++) {
      const { s, y, by } = moves[m]!;
      const beta = dot(y, way) * by;
      for (let i = 0; i < n; i++) way[i] = way[i]! + (alphas[m]! - beta) * s[i]!;
    }
    const fall = dot(way, gradient);
    if (!(fall < 0)) break;
    from.set(at);
    let t = 1;
    let reached = Number.POSITIVE_INFINITY;
    for (let tries = 0; tries < 8; tries++, t *= 0.4) {
      for (let i = 0; i < n; i++) at[i] = from[i]! + t * way[i]!;
      reached = slope(at, next);
      if (reached <= height + enough * t * fall) break;
    }
    if (!(reached < height)) {
      at.set(from);
      break;
    }
    const s = new Float64Array(n);
    const y = new Float64Array(n);
    for (let i = 0; i < n; i++) {
      s[i] = at[i]! - from[i]!;
      y[i] = next[i]! - gradient[i]!;
    }
    const along = dot(s, y);
    if (along > 1e-12) {
      moves.push({ s, y, by: 1 / along });
      if (moves.length > memory) moves.shift();
    }
    [gradient, next] = [next, gradient];
    const gain = height - reached;
    height = reached;
    if (gain < 1e-4 * height) break;
  }
  return height;
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}
