/** Which patterns go on which tree, where what a tree holds is a number to add up to: the best is then known. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type Load, loadTrees, type Trial } from '../../../core/job/load-trees.js';

/** A tree holds what adds up to `room`, at most eight; each pattern by itself takes 100 of slurry, a tree 150. */
const trialOf =
  (sizes: readonly number[], room: number): Trial =>
  (counts) => {
    const number = counts.reduce((a, b) => a + b, 0);
    const taken = counts.reduce((sum, c, k) => sum + c * sizes[k]!, 0);
    return taken <= room + 1e-9 && number <= 8 ? { slurry: 150, spares: 100 * number - 150 } : undefined;
  };

const castings = (loads: readonly Load[], k: number): number =>
  loads.reduce((sum, { counts, times }) => sum + times * (counts[k] ?? 0), 0);
const trees = (loads: readonly Load[]): number => loads.reduce((sum, l) => sum + l.times, 0);
const moulds = (loads: readonly Load[], quantities: readonly number[]): number =>
  trees(loads) + quantities.reduce((sum, q, k) => sum + q - castings(loads, k), 0);

test('known best: twos and threes into tens', () => {
  // 10 = 3 + 3 + 2 + 2: six threes and six twos fill three trees to the brim.
  const loads = loadTrees([6, 6], [3, 2], trialOf([3, 2], 10));
  expect(moulds(loads, [6, 6])).toBe(3);
  // Eight of one alone fill one, thirteen of them a second in part.
  expect(moulds(loadTrees([8], [1], trialOf([1], 10)), [8])).toBe(1);
  expect(moulds(loadTrees([13], [1], trialOf([1], 10)), [13])).toBe(2);
  // Six each beside none else.
  expect(loadTrees([2, 2], [6, 6], trialOf([6, 6], 10))).toEqual([]);
});

test('what takes more slurry than by itself stays by itself', () => {
  const dear: Trial = (counts) => {
    const number = counts.reduce((a, b) => a + b, 0);
    return number <= 4 ? { slurry: 350, spares: 100 * number - 350 } : undefined;
  };
  // Four spare 50, three would take 50 more.
  expect(loadTrees([4], [1], dear)).toEqual([{ counts: [4], times: 1 }]);
  expect(loadTrees([3], [1], dear)).toEqual([]);
});

test('any set: every tree holds two or more and can be had, none more than there are, and few moulds', () => {
  const kinds = fc.array(
    fc.record({
      quantity: fc.integer({ min: 1, max: 12 }),
      size: fc.double({ min: 0.5, max: 7, noNaN: true }),
    }),
    { minLength: 1, maxLength: 6 },
  );
  fc.assert(
    fc.property(kinds, (given) => {
      const [quantities, sizes] = [given.map((k) => k.quantity), given.map((k) => k.size)];
      const trial = trialOf(sizes, 10);
      const loads = loadTrees(quantities, sizes, trial);
      for (const { counts, times } of loads) {
        expect(times).toBeGreaterThan(0);
        expect(counts.reduce((a, b) => a + b, 0)).toBeGreaterThan(1);
        expect(trial(counts)).toBeDefined();
      }
      for (const [k, q] of quantities.entries()) expect(castings(loads, k)).toBeLessThanOrEqual(q);
      const whole = quantities.reduce((sum, q, k) => sum + q * sizes[k]!, 0);
      const number = quantities.reduce((a, b) => a + b, 0);
      const least = Math.max(Math.ceil(whole / 10 - 1e-9), Math.ceil(number / 8));
      const found = moulds(loads, quantities);
      expect(found).toBeGreaterThanOrEqual(least);
      // Largest first leaves no two trees that would go into one: under twice the least, and one.
      expect(found).toBeLessThanOrEqual(2 * least + 1);
    }),
    { seed: 20261126, numRuns: 300 },
  );
});

test('a large set ends after few trials', () => {
  let trials = 0;
  const sizes = Array.from({ length: 200 }, (_, i) => 1 + (i % 17) / 4);
  const trial = trialOf(sizes, 10);
  const loads = loadTrees(
    sizes.map((_, i) => 1 + (i % 5)),
    sizes,
    (counts) => {
      trials++;
      return trial(counts);
    },
  );
  expect(trials).toBeLessThanOrEqual(400);
  expect(trees(loads)).toBeGreaterThan(50);
});
