/** Greatest value of a smooth function over a range that it rises and falls in once, by successively finer looks. */
export function greatest(of: (u: number) => number, low: number, high: number): number {
  let [from, to] = [low, high];
  for (let look = 0; look < 6; look++) {
    const step = (to - from) / 24;
    let best = from;
    for (let i = 0; i <= 24; i++) if (of(from + i * step) > of(best)) best = from + i * step;
    [from, to] = [Math.max(low, best - step), Math.min(high, best + step)];
  }
  return Math.max(of((from + to) / 2), of(from), of(to));
}
