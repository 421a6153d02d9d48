import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { definePart, refuse } from '../../../core/part/contract.js';
import { length, number } from '../../../core/part/fields.js';
import { formatInput } from '../../../core/part/input-problem.js';
import { readFields, readParameters } from '../../../core/part/parameters.js';
import { testBracket } from '../job/test-part.js';

const inMm = { lengthUnit: 'mm' } as const;
const inInches = { lengthUnit: 'in' } as const;

const told = (
  raw: unknown,
  options: { lengthUnit: 'mm' | 'in'; preset?: string } = inMm,
): readonly string[] => {
  const reading = readParameters(testBracket, raw, options);
  return reading.ok ? [] : reading.problems.map((problem) => formatInput(problem));
};
const read = (raw: unknown, options: { lengthUnit: 'mm' | 'in'; preset?: string } = inMm) => {
  const reading = readParameters(testBracket, raw, options);
  if (!reading.ok) throw new Error(reading.problems.map((p) => formatInput(p)).join('\n'));
  return reading.parameters;
};

describe('readParameters', () => {
  it('fills in the defaults and leaves out what is worked out', () => {
    expect(read({})).toEqual({
      width: 40,
      tilt: Math.PI / 6,
      shift: 0,
      holes: 2,
      hand: 'left',
      countersunk: false,
    });
  });

  it('reads text by the kind of the field', () => {
    const raw = {
      width: '1-1/2in',
      boreDiameter: '12mm',
      tilt: "20°30'",
      shift: '3/8',
      holes: '7',
      hand: 'right',
      countersunk: 'yes',
    };
    expect(read(raw)).toEqual({
      width: 38.1,
      boreDiameter: 12,
      tilt: (20.5 * Math.PI) / 180,
      shift: 0.375,
      holes: 7,
      hand: 'right',
      countersunk: true,
    });
  });

  it('takes bare numbers as millimetres or inches, and as degrees', () => {
    expect(read({ width: 12, tilt: 20 })).toMatchObject({ width: 12, tilt: (20 * Math.PI) / 180 });
    expect(read({ width: 1.1 }, inInches)).toMatchObject({ width: 27.94 });
    expect(read({ width: '1 1/2' }, inInches)).toMatchObject({ width: 38.1 });
  });

  it('knows names in camelCase and in kebab-case, but not both at once', () => {
    expect(read({ 'bore-diameter': '12mm' })).toMatchObject({ boreDiameter: 12 });
    expect(told({ 'bore-diameter': 12, boreDiameter: 13 })).toEqual([
      'boreDiameter is given twice, as bore-diameter and as boreDiameter; keep one of them',
    ]);
  });

  it('counts undefined as not given', () => {
    expect(read({ width: undefined, colour: undefined })).toMatchObject({ width: 40 });
  });

  it('accepts every bound as it is shown', () => {
    expect(read({ tilt: '45deg' }).tilt).toBe(Math.PI / 4);
    expect(read({ tilt: '45°0\'0"' }).tilt).toBe(Math.PI / 4);
  });

  it('names both values of a range, in the unit of the user', () => {
    expect(told({ holes: 13 })).toEqual(['holes is 13; a whole number from 1 to 12']);
    expect(told({ width: 4 })).toEqual(['width is 4; from 5 to 400 mm']);
    expect(told({ width: '0.1in' })).toEqual(['width is 0.1in (2.54 mm); from 5 to 400 mm']);
    expect(told({ width: 0.1 }, inInches)).toEqual(['width is 0.1; from 0.1969 to 15.748 in']);
    expect(told({ tilt: '80deg' })).toEqual(['tilt is 80deg; from 0 to 45°']);
    expect(told({ tilt: '1.2rad' })).toEqual(['tilt is 1.2rad (68.7549°); from 0 to 45°']);
  });

  it('reports every problem at once, in the order given', () => {
    expect(told({ widht: 3, holes: 2.5, tilt: 'steep', hand: 'lefft', countersunk: 3 })).toEqual([
      'widht: unknown key; did you mean width?',
      'holes is 2.5; a whole number from 1 to 12',
      'tilt: "steep" does not start with a number; write it like 30deg or 30°15\' (from 0 to 45°)',
      'hand is lefft; did you mean left? one of left, right',
      'countersunk is 3; yes or no',
    ]);
  });

  it.each([
    ['NaN', { width: Number.NaN }, 'not a finite number'],
    ['Infinity', { holes: Number.POSITIVE_INFINITY }, 'not a finite number'],
    ['1e308', { width: 1e308 }, 'is 1e+308; from 5 to 400 mm'],
    ['1e308 as a count', { holes: 1e308 }, 'a whole number from 1 to 12'],
    ['a megabyte', { width: '7'.repeat(1 << 20) }, '1048576 characters'],
    ['a megabyte of choice', { hand: 'x'.repeat(1 << 20) }, 'one of left, right'],
    ['a list', { width: [1] }, 'width is a list'],
    ['an object', { width: {} }, 'width is a group of keys'],
    ['a date', { width: new Date(0) }, 'width is a group of keys'],
    ['null', { width: null }, 'width has no value; give from 5 to 400 mm, or leave the key out'],
    ['true', { width: true }, 'width is true'],
    ['a big integer', { holes: 3n }, 'holes is 3'],
    ['a symbol', { width: Symbol('w') }, 'width is Symbol(w)'],
    ['a function', { width: () => 3 }, 'width is a function'],
    ['a list for a choice', { hand: ['left'] }, 'hand is a list'],
    ['__proto__', JSON.parse('{"__proto__": 3}'), '__proto__: unknown key'],
    ['constructor', { constructor: 3 }, 'constructor: unknown key'],
    ['toString', { toString: 3 }, 'toString: unknown key'],
    ['control characters', { 'a\u001b[31m': 3 }, 'a\\u001b[31m: unknown key'],
    ['a list of parameters', [1, 2], 'is a list; give it as keys and values'],
    ['no parameters', null, 'is nothing'],
    ['text', 'width: 3', 'is width: 3'],
  ])('refuses %s clearly', (_, raw, words) => {
    const lines = told(raw);
    expect(lines).toHaveLength(1);
    expect(lines[0]).toContain(words);
    expect(lines[0]!.length).toBeLessThan(250);
  });

  it('stops telling after a hundred problems', () => {
    const raw = Object.fromEntries(Array.from({ length: 50_000 }, (_, i) => [`k${i}`, i]));
    expect(told(raw)).toHaveLength(100);
  });

  it('starts from a preset', () => {
    expect(read({}, { ...inMm, preset: 'small' })).toMatchObject({ width: 12, holes: 1 });
    expect(read({ holes: 3 }, { ...inMm, preset: 'small' })).toMatchObject({ width: 12, holes: 3 });
    expect(told({}, { ...inMm, preset: 'smal' })).toEqual(['preset is smal; did you mean small?']);
    expect(told({}, { ...inMm, preset: 'constructor' })).toEqual(['preset is constructor; known are small']);
  });

  it('tells what a refinement of the whole schema says', () => {
    const schema = z
      .object({
        small: number({ min: 0, max: 9, default: 1, group: 'g', help: 'h' }),
        large: number({ min: 0, max: 9, default: 2, group: 'g', help: 'h' }),
      })
      .refine((p) => p.small < p.large, { error: 'is not below large', path: ['small'] });
    const reading = readFields(schema, { small: 5 }, inMm);
    expect(reading.ok ? [] : reading.problems.map((p) => formatInput(p))).toEqual([
      'small is not below large',
    ]);
  });

  it('reads a part written with zod alone', () => {
    const part = definePart({
      name: 'plain',
      summary: 'Fields without facts',
      parameters: z.object({
        size: z.number().min(1).max(9),
        sides: z.enum(['one', 'two']).default('one'),
        open: z.boolean().optional(),
      }),
      build: () => refuse([]),
    });
    expect(readParameters(part, { size: '3', open: 'yes' }, inMm)).toEqual({
      ok: true,
      parameters: { size: 3, sides: 'one', open: true },
    });
    const missing = readParameters(part, {}, inMm);
    expect(missing.ok ? [] : missing.problems.map((p) => [p.code, p.path])).toEqual([['missing', ['size']]]);
    const large = readParameters(part, { size: 10, sides: 'three' }, inMm);
    expect(large.ok ? [] : large.problems.map((p) => formatInput(p))).toEqual([
      'size is 10; from 1 to 9',
      'sides is three; one of one, two',
    ]);
  });

  it('accepts the bounds it prints, in both units, for any range (seed 8062)', () => {
    const bound = fc.double({ min: 0.002, max: 2000, noNaN: true });
    fc.assert(
      fc.property(bound, bound, fc.constantFrom('mm' as const, 'in' as const), (a, b, lengthUnit) => {
        const [min, max] = [Math.min(a, b), Math.max(a, b) + 0.01];
        const schema = z.object({ size: length({ min, max, derived: 'nothing', group: 'g', help: 'h' }) });
        const refused = readFields(schema, { size: -1 }, { lengthUnit });
        const remedy = refused.ok ? '' : refused.problems[0]!.remedy;
        const [, low, high] = /^from ([\d.]+) to ([\d.]+) (?:mm|in)$/.exec(remedy)!;
        for (const shown of [low, high]) {
          const reading = readFields(schema, { size: shown }, { lengthUnit });
          expect(reading.ok).toBe(true);
          if (reading.ok) expect(reading.values.size! >= min && reading.values.size! <= max).toBe(true);
        }
      }),
      { seed: 8062, numRuns: 1000 },
    );
  });

  it('gives legal parameters or problems, and never throws, for anything at all (seed 4)', () => {
    const key = fc.oneof(
      fc.constantFrom('width', 'holes', 'tilt', 'hand', 'countersunk', 'bore-diameter'),
      fc.string(),
    );
    const anything = fc.oneof(fc.anything(), fc.string(), fc.double(), fc.integer({ min: -5, max: 500 }));
    fc.assert(
      fc.property(fc.dictionary(key, anything, { maxKeys: 5 }), (raw) => {
        const reading = readParameters(testBracket, raw, inMm);
        if (reading.ok) expect(testBracket.parameters.safeParse(reading.parameters).success).toBe(true);
        else expect(reading.problems.length).toBeGreaterThan(0);
      }),
      { seed: 4, numRuns: 2000 },
    );
  });
});
