/** Fitting a programme to a controller that takes fewer segments. */
import type { Step } from './steps.js';

/**
 * Joins ramps that have no soak between them until the programme has at most so many steps, each time the pair that
 * takes least time. A joined ramp runs throughout at the slower of the two rates, so nothing is passed faster than
 * before; soaks are never given up, so it may end with more steps than asked for: one to each soak.
 * @param start °C
 * @param most at least 1
 */
export function joinSteps(steps: readonly Step[], start: number, most: number): readonly Step[] {
  let joined = steps;
  while (joined.length > most) {
    const from = (i: number): number => joined[i - 1]?.to ?? start;
    const choices = joined.slice(0, -1).flatMap((a, i) => {
      const b = joined[i + 1] as Step;
      // Up and down do not make one ramp.
      if (a.soak > 0 || (a.to - from(i)) * (b.to - a.to) < 0) return [];
      const rate = Math.min(a.rate, b.rate);
      const time = (s: Step, begin: number): number => Math.abs(s.to - begin) / s.rate;
      return [{ i, rate, cost: Math.abs(b.to - from(i)) / rate - time(a, from(i)) - time(b, a.to) }];
    });
    const best = choices.sort((x, y) => x.cost - y.cost || x.i - y.i)[0];
    if (best === undefined) break;
    const [a, b] = [joined[best.i] as Step, joined[best.i + 1] as Step];
    const watch = [a.watch, b.watch].filter((w) => w !== undefined && w !== 'no faster').join('; ');
    joined = [
      ...joined.slice(0, best.i),
      {
        ...b,
        rate: best.rate,
        purpose: joinPurposes(a.purpose, b.purpose),
        ...(watch === '' ? {} : { watch }),
      },
      ...joined.slice(best.i + 2),
    ];
  }
  return joined;
}

const joinPurposes = (a: string, b: string): string => (a === 'climb' ? b : `${a}, ${b}`);
