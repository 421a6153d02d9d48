import type { Loop } from './sections.js';

/** An outline round the origin as radii at even directions, from −π on. */
export type Polar = Float64Array;

/** The farthest radius at each of `count` directions, with the outline's sides cut exactly. */
export function polarOf(loop: Loop, count: number): Polar {
  const radii = new Float64Array(count);
  const step = (2 * Math.PI) / count;
  loop.forEach(([x0, y0], i) => {
    const [x1, y1] = loop[(i + 1) % loop.length] as readonly [number, number];
    const from = Math.atan2(y0, x0);
    let to = Math.atan2(y1, x1);
    to -= 2 * Math.PI * Math.round((to - from) / (2 * Math.PI));
    const [low, high] = from < to ? [from, to] : [to, from];
    for (let k = Math.ceil((low + Math.PI) / step); k * step - Math.PI <= high; k++) {
      const angle = k * step - Math.PI;
      const [c, s] = [Math.cos(angle), Math.sin(angle)];
      // Where the ray crosses the side.
      const across = c * (y1 - y0) - s * (x1 - x0);
      if (across === 0) continue;
      const r = (x0 * (y1 - y0) - y0 * (x1 - x0)) / across;
      const at = ((k % count) + count) % count;
      radii[at] = Math.max(radii[at] as number, r);
    }
  });
  return radii;
}

/** The turn from one outline to another that they agree best at, within ± `reach`, rad, and the rms that is left, mm. */
export function turnBetween(one: Polar, other: Polar, reach: number): { turn: number; left: number } {
  const count = one.length;
  const step = (2 * Math.PI) / count;
  // Sum of squares of the other turned back by `turn` less the one, linear between its samples.
  const misfit = (turn: number): number => {
    const shift = turn / step;
    const whole = Math.floor(shift);
    const part = shift - whole;
    let sum = 0;
    for (let k = 0; k < count; k++) {
      const at = (((k + whole) % count) + count) % count;
      const value = (1 - part) * (other[at] as number) + part * (other[(at + 1) % count] as number);
      sum += (value - (one[k] as number)) ** 2;
    }
    return sum;
  };
  const tries = 80;
  let best = 0;
  let least = Infinity;
  for (let i = -tries; i <= tries; i++) {
    const turn = (i / tries) * reach;
    const sum = misfit(turn);
    if (sum < least) [best, least] = [turn, sum];
  }
  let [from, to] = [best - reach / tries, best + reach / tries];
  while (to - from > 1e-9) {
    const [a, b] = [from + (to - from) * 0.382, from + (to - from) * 0.618];
    if (misfit(a) < misfit(b)) to = b;
    else from = a;
  }
  const turn = (from + to) / 2;
  return { turn, left: Math.sqrt(misfit(turn) / count) };
}
