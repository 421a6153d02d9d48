import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { editDistance, suggest, suggestRemedy } from '../../../core/part/suggest.js';

describe('editDistance', () => {
  // CA → ABC is the usual example that separates the full distance (2) from the restricted one (3).
  it.each([
    ['ca', 'abc', 2],
    ['kitten', 'sitting', 3],
    ['saturday', 'sunday', 3],
    ['teh', 'the', 1],
    ['tooth', 'teeth', 2],
    ['', 'abc', 3],
    ['abc', 'abc', 0],
  ])('%s to %s is %d', (a, b, distance) => {
    expect(editDistance(a, b)).toBe(distance);
  });

  it('is a metric (seed 75)', () => {
    const word = fc.string({ unit: fc.constantFrom('a', 'b', 'c'), maxLength: 7 });
    fc.assert(
      fc.property(word, word, word, (a, b, c) => {
        expect(editDistance(a, b)).toBe(editDistance(b, a));
        expect(editDistance(a, b) === 0).toBe(a === b);
        expect(editDistance(a, c)).toBeLessThanOrEqual(editDistance(a, b) + editDistance(b, c));
      }),
      { seed: 75, numRuns: 500 },
    );
  });

  it('one slip is a distance of at most one (seed 76)', () => {
    const word = fc.string({ minLength: 2, maxLength: 12 });
    fc.assert(
      fc.property(word, fc.nat(), fc.constantFrom('drop', 'double', 'swap'), (text, n, slip) => {
        const i = n % (text.length - 1);
        const [a, b] = [text[i]!, text[i + 1]!];
        const middle = slip === 'drop' ? b : slip === 'double' ? a + a + b : b + a;
        expect(editDistance(text, text.slice(0, i) + middle + text.slice(i + 2))).toBeLessThanOrEqual(1);
      }),
      { seed: 76, numRuns: 500 },
    );
  });
});

describe('suggest', () => {
  const known = ['normalModule', 'teeth', 'faceWidth', 'helixAngle', 'bore', 'hubDiameter', 'hubLength'];
  it.each([
    ['tooth', 'teeth'],
    ['teath', 'teeth'],
    ['helix-angel', 'helixAngle'],
    ['HELIXANGLE', 'helixAngle'],
    ['facewidht', 'faceWidth'],
    ['module', 'normalModule'],
    ['boer', 'bore'],
  ])('%s means %s', (word, name) => {
    expect(suggest(word, known)).toBe(name);
  });

  it.each(['hub', 'colour', 'x', '', '__proto__', 'x'.repeat(100_000)])('nothing is near %s', (word) => {
    expect(suggest(word, known)).toBeUndefined();
  });

  it('lists what there is where nothing is near', () => {
    expect(suggestRemedy('colour', ['teeth', 'bore'])).toBe('known are teeth, bore');
  });
});
