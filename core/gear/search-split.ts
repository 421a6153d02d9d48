import type { AnyTriedPair, Attempt } from './tried-pair.js';

const coarse = 8;
const fine = 4;
const warningDemerit = 10;

/**
 * The best of the profile shifts x₁ from `from` to `to` that pass: an even scan, then a finer one about its best.
 * `merit` is least for the best. Of shifts that all fail, the attempt that got furthest.
 */
export function searchSplit<T extends AnyTriedPair>(
  from: number,
  to: number,
  attempt: (shift: number) => Attempt<T>,
  merit: (pair: T) => number,
): Attempt<T> {
  const step = (to - from) / coarse;
  const first = bestOf(
    Array.from({ length: step > 1e-9 ? coarse + 1 : 1 }, (_, i) => from + step * i),
    attempt,
    merit,
  );
  if (!first.result.ok || step <= 1e-9) return first.result;
  const around = Array.from({ length: 2 * fine - 1 }, (_, i) => first.shift + (step * (i + 1 - fine)) / fine);
  const second = bestOf(
    around.filter((x) => x > from && x < to && Math.abs(x - first.shift) > 1e-12),
    attempt,
    merit,
    first,
  );
  return second.result;
}

interface Best<T extends AnyTriedPair> {
  readonly shift: number;
  readonly value: number;
  readonly result: Attempt<T>;
}

function bestOf<T extends AnyTriedPair>(
  shifts: readonly number[],
  attempt: (shift: number) => Attempt<T>,
  merit: (pair: T) => number,
  start?: Best<T>,
): Best<T> {
  let best = start;
  for (const shift of shifts) {
    const result = attempt(shift);
    if (result.ok) {
      // A pair without a warning before one that meets its aim better.
      const warnings = result.pair.findings.filter((f) => f.severity === 'warn').length;
      const value = merit(result.pair) + warningDemerit * warnings;
      if (!best?.result.ok || value < best.value - 1e-12) best = { shift, value, result };
    } else if (!best) best = { shift, value: 0, result };
    else if (!best.result.ok && furtherThan(result.refusal, best.result.refusal))
      best = { shift, value: 0, result };
  }
  return best as Best<T>;
}

const furtherThan = (
  a: { readonly stage: number; readonly miss: number },
  b: { readonly stage: number; readonly miss: number },
): boolean => a.stage > b.stage || (a.stage === b.stage && a.miss < b.miss);
