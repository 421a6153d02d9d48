import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { Stage, type StageView } from '../../../cli/progress/stage.js';
import { formatTimeLeft, roundTime } from '../../../cli/progress/time-left.js';

/** Seen every half second of a stage whose items are taken in turn by some workers: what is told, and what is true. */
interface Seen {
  readonly at: number;
  readonly left: number | undefined;
  readonly truly: number;
  readonly view: StageView;
}

/** Works items through in simulated time; `costs` in ms, 0 for one kept from before. */
function work(
  costs: readonly number[],
  workers: number,
  { tells = false }: { readonly tells?: boolean } = {},
): readonly Seen[] {
  const of = costs.length;
  const free = Array.from({ length: workers }, () => 0);
  const spans = costs.map((cost) => {
    const worker = free.indexOf(Math.min(...free));
    const from = free[worker] as number;
    free[worker] = from + cost;
    return { from, to: from + cost };
  });
  const end = Math.max(...spans.map((s) => s.to));
  const stage = new Stage({ stage: 'parts', of });
  const seen: Seen[] = [];
  const events = spans
    .flatMap(({ from, to }, i) => {
      const name = `p${i}`;
      if (from === to) return [{ at: from, event: { stage: 'parts', of, name, kept: true } as const }];
      return [
        { at: from, event: { stage: 'parts', of, name } as const },
        { at: to, event: { stage: 'parts', of, name, share: 1 } as const },
        ...(tells
          ? Array.from({ length: 19 }, (_, k) => {
              const share = (k + 1) / 20;
              const at = from + share * (to - from);
              return { at, event: { stage: 'parts', of, name, share } as const };
            })
          : []),
      ];
    })
    .sort((a, b) => a.at - b.at);
  let next = 0;
  for (let at = 0; at <= end; at += 500) {
    for (; next < events.length && (events[next] as { at: number }).at <= at; next++) {
      const { event, at: when } = events[next] as (typeof events)[number];
      stage.take(event, when);
    }
    const view = stage.view(at);
    seen.push({ at, left: view.left, truly: end - at, view });
  }
  return seen;
}

const told = (seen: readonly Seen[]): readonly (Seen & { left: number })[] =>
  seen.flatMap((s) => (s.left === undefined ? [] : [{ ...s, left: s.left }]));

describe('time left', () => {
  test('is not told before there is ground for it', () => {
    const seen = work(Array(40).fill(3000), 2);
    const first = seen.find((s) => s.left !== undefined);
    // Three parts of 3 s on two workers are done after 6 s, and not earlier.
    expect(first?.at).toBe(6000);
    expect(work([60_000], 1).every((s) => s.left === undefined)).toBe(true);
    // Many in a moment are no ground either.
    expect(work(Array(20).fill(50), 1).every((s) => s.left === undefined)).toBe(true);
  });

  test.each([1, 2, 4, 16])('is right where all parts cost the same, %i at once', (workers) => {
    // Rounded to minutes, and held until it is well past.
    for (const { left, truly } of told(work(Array(200).fill(2000), workers)))
      expect(Math.abs(left - truly)).toBeLessThanOrEqual(truly < 60_000 ? 15_000 : 65_000);
  });

  test('runs down and never up where all parts cost the same', () => {
    const lefts = told(work(Array(400).fill(2500), 3)).map((s) => s.left);
    expect(lefts.length).toBeGreaterThan(100);
    for (const [i, left] of lefts.entries())
      if (i > 0) expect(left).toBeLessThanOrEqual(lefts[i - 1] as number);
  });

  test('one item that tells how far it is gives a time by that', () => {
    const seen = told(work([100_000], 1, { tells: true }));
    expect(seen[0]?.at).toBeLessThanOrEqual(11_000);
    for (const { left, truly } of seen) expect(Math.abs(left - truly)).toBeLessThanOrEqual(65_000);
    const late = seen.filter((s) => s.truly < 40_000 && s.truly > 15_000);
    for (const { left, truly } of late) expect(Math.abs(left - truly)).toBeLessThanOrEqual(15_000);
  });

  test('parts kept from before are no measure of those that are made', () => {
    // Half were made before, which took no time.
    const seen = told(work([...Array(100).fill(0), ...Array(100).fill(2000)], 2));
    for (const { left, truly, at } of seen)
      if (at > 60_000) expect(Math.abs(left - truly)).toBeLessThanOrEqual(65_000);
    expect(seen.at(-1)?.view.kept).toBe(100);
    // Every other one kept: half of those to come will be.
    const mixed = told(
      work(
        Array.from({ length: 400 }, (_, i) => (i % 2) * 2000),
        1,
      ),
    );
    for (const { left, truly, at } of mixed)
      if (at > 60_000) expect(Math.abs(left - truly)).toBeLessThanOrEqual(65_000);
  });

  test('an odd part does not turn it', () => {
    // One in forty takes fifty times as long.
    const costs = Array.from({ length: 400 }, (_, i) => (i % 40 === 20 ? 50_000 : 1000));
    const seen = told(work(costs, 4));
    for (const [i, { left }] of seen.entries()) {
      if (i === 0) continue;
      const before = (seen[i - 1] as { left: number }).left;
      expect(left).toBeLessThanOrEqual(before * 1.5 + 10_000);
    }
  });

  test('with costs that differ much it does not jump about, and is near the truth, seed 3', () => {
    fc.assert(
      fc.property(
        // Drawn between a fifth of a second and eight, in any order.
        fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 80, maxLength: 200, size: 'max' }),
        fc.integer({ min: 1, max: 8 }),
        fc.infiniteStream(fc.nat()),
        (draws, workers, order) => {
          const costs = draws.map((u, i) => ({
            cost: 200 * 40 ** (((i * 0.618) % 1) * 0.8 + u * 0.2),
            at: order.next().value,
          }));
          costs.sort((a, b) => a.at - b.at);
          const seen = told(
            work(
              costs.map((c) => Math.round(c.cost)),
              workers,
            ),
          );
          for (const [i, { left }] of seen.entries()) {
            const before = seen[i - 1]?.left;
            // Of half a second: a step of what it is rounded to.
            if (before !== undefined) expect(Math.abs(left - before)).toBeLessThanOrEqual(60_000);
          }
          const turns = seen.filter((s, i) => i > 0 && s.left > (seen[i - 1]?.left as number)).length;
          expect(turns).toBeLessThanOrEqual(4 + seen.length / 40);
          const half = seen.find((s) => s.view.share > 0.5);
          if (half && half.truly > 60_000) {
            expect(half.left / half.truly).toBeGreaterThan(0.5);
            expect(half.left / half.truly).toBeLessThan(1.7);
          }
        },
      ),
      { seed: 3, numRuns: 60 },
    );
  });
});

describe('time in words', () => {
  test.each([
    [0, 'a few seconds left'],
    [4000, 'a few seconds left'],
    [12_000, 'about 10 s left'],
    [41_000, 'about 40 s left'],
    [58_000, 'about 1 min left'],
    [187_000, 'about 3 min left'],
    [1_380_000, 'about 25 min left'],
    [3_590_000, 'about 1 h left'],
    [4_700_000, 'about 1 h 20 min left'],
    [97_000_000, 'about 27 h left'],
  ])('%i ms: %s', (ms, words) => {
    expect(formatTimeLeft(roundTime(ms))).toBe(words);
  });

  test('a time about where it was shown is shown so still', () => {
    expect(roundTime(151_000, 180_000)).toBe(180_000);
    expect(roundTime(134_000, 180_000)).toBe(120_000);
    expect(roundTime(205_000, 180_000)).toBe(180_000);
    expect(roundTime(226_000, 180_000)).toBe(240_000);
  });
});
