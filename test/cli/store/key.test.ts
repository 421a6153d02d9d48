import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { canonicalText, keyOf } from '../../../cli/store/key.js';

/** Plain data as jobs have it, with what JSON alone would take for something else. */
const data = fc.letrec((tie) => ({
  value: fc.oneof(
    { depthSize: 'small' },
    fc.string(),
    fc.double(),
    fc.boolean(),
    fc.constant(null),
    fc.uint8Array({ maxLength: 4 }),
    fc.array(tie('value'), { maxLength: 3 }),
    fc.dictionary(fc.string({ maxLength: 3 }), tie('value'), { maxKeys: 3, noNullPrototype: true }),
  ),
})).value;

/** The same data, its fields in another order. */
function reordered(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(reordered);
  if (value === null || typeof value !== 'object' || value instanceof Uint8Array) return value;
  const fields = Object.entries(value).map(([k, v]) => [k, reordered(v)] as const);
  return Object.fromEntries([...fields.reverse(), ['zz left out', undefined]]);
}

describe('keys', () => {
  test('the order of fields and fields that are undefined do not count', () => {
    fc.assert(
      fc.property(data, (value) => {
        expect(keyOf(reordered(value))).toBe(keyOf(value));
      }),
    );
  });

  test('two values have one key only where they are the same', () => {
    // `toStrictEqual` on NaN and −0 is Object.is.
    const same = (a: unknown, b: unknown): boolean => {
      try {
        expect(a).toStrictEqual(b);
        return true;
      } catch {
        return false;
      }
    };
    fc.assert(
      fc.property(data, data, (a, b) => {
        expect(keyOf(a) === keyOf(b)).toBe(same(a, b));
      }),
    );
    const close = [
      0,
      -0,
      Number.NaN,
      null,
      'NaN',
      '-0',
      [],
      {},
      '',
      '[]',
      [[]],
      [null],
      [undefined],
      1,
      '1',
      [1, 2],
      [12],
    ];
    const bytes = [
      new Uint8Array(),
      new Uint8Array([0]),
      `bytes:${'0'.repeat(64)}`,
      { a: 'b' },
      ['a', 'b'],
      { 'a":"b': 1 },
    ];
    const texts = [...close, ...bytes].map(canonicalText);
    expect(new Set(texts).size).toBe(texts.length);
  });

  test('the text is JSON where JSON is enough, and the sum is SHA-256', () => {
    expect(canonicalText({ b: [1, 'x', null, true], a: { d: 0.1, c: 1e21 } })).toBe(
      '{"a":{"c":1e+21,"d":0.1},"b":[1,"x",null,true]}',
    );
    // FIPS 180-4 of the three bytes `"a"`, from `printf '"a"' | sha256sum`.
    expect(keyOf('a')).toBe('ac8d8342bbb2362d13f0a559a3621bb407011368895164b628a54f7fc33fc43c');
  });

  test('what has no text of its own is a fault of the program', () => {
    for (const value of [() => 1, Symbol('a'), new Date(0), new Map(), 1n, new Float64Array(2)]) {
      expect(() => keyOf({ part: [value] })).toThrow(TypeError);
    }
    expect(() => keyOf(undefined)).toThrow(TypeError);
  });
});
