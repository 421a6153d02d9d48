import { describe, expect, it } from 'vitest';
import { printed } from './printed.js';

/** A printed figure: its topic, what is asked, where it is printed, our value, and what is printed. */
export type Check = readonly [topic: string, what: string, source: string, value: () => number, text: string];

/** How many there are by topic: `modulus 7, energy 3`. */
const tally = (checks: readonly Check[]): string =>
  [...new Set(checks.map(([topic]) => topic))]
    .map((t) => `${t} ${checks.filter(([topic]) => topic === t).length}`)
    .join(', ');

/** A test for each, under a title that counts them by topic. */
export const listed = (title: string, checks: readonly Check[]): void => {
  describe(`${title}, ${checks.length}: ${tally(checks)}`, () => {
    it.each(checks)('%s: %s (%s)', (_topic, _what, _source, value, text) => printed(value(), text));

    it('no line twice', () => {
      expect(new Set(checks.map(([topic, what]) => `${topic} ${what}`)).size).toBe(checks.length);
    });
  });
};
