/** The checks of what foreign code gives hold for whatever it gives. */
import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { z } from 'zod';
import { checkBuilt } from '../../../core/part/check-built.js';
import { checkDefinition } from '../../../core/part/check-definition.js';
import { length } from '../../../core/part/fields.js';
import { formatInput } from '../../../core/part/input-problem.js';

const rules = { reserved: new Set(['out']), unsafeName: () => undefined };
const size = length({ min: 1, max: 9, default: 3, help: 'Size', group: 'Size' });
const sound = {
  name: 'peg',
  summary: 'Peg',
  parameters: z.object({ size }),
  presets: { big: { size: 9 } },
  pieces: [{ name: 'head', title: 'Head of a peg' }],
  tolerance: 0.05,
  build: () => undefined,
};
const built = {
  solid: {},
  surfaces: [{ surfaceClass: 'skin', name: 'outside' }],
  dimensions: [{ symbol: 'D', name: 'diameter', value: 3, unit: 'mm', axis: 'xy', method: 'calliper' }],
  gates: [{ name: 'top', at: [0, 0, 1], innerDiameter: 0, outerDiameter: 3 }],
  vents: [{ name: 'rim', at: [1, 0, 1], footDiameter: 2 }],
  thinnestWall: 2,
  drawing: { views: [{ from: '-y', dimensions: [{ of: 'D', at: [0, 0, 0], radius: 2 }] }] },
  fittings: [{ quantity: 2, text: 'screw' }],
  findings: [],
};

/** Any value, functions, class instances, schemas and holders of NaN among them. */
const anything = fc.oneof(
  fc.anything({
    withBigInt: true,
    withDate: true,
    withMap: true,
    withTypedArray: true,
    withNullPrototype: true,
  }),
  fc.constantFrom(() => 3, Symbol('s'), z.string(), z.array(z.number()), size, new Proxy({}, {}), Number.NaN),
);

/** A sound value with something else at one place in it. */
const spoiled = (value: object): fc.Arbitrary<unknown> => {
  const places = placesIn(value, []);
  return fc.tuple(fc.constantFrom(...places), anything).map(([path, other]) => replaced(value, path, other));
};
const isPlain = (value: unknown): value is Record<string, unknown> =>
  Array.isArray(value) || (typeof value === 'object' && value !== null && !('def' in value));
const placesIn = (value: unknown, path: readonly string[]): readonly (readonly string[])[] =>
  isPlain(value)
    ? Object.keys(value).flatMap((key) => [[...path, key], ...placesIn(value[key], [...path, key])])
    : [];
function replaced(value: unknown, [key, ...rest]: readonly string[], other: unknown): unknown {
  if (key === undefined) return other;
  const copy: Record<string, unknown> = Array.isArray(value)
    ? ([...value] as unknown as Record<string, unknown>)
    : { ...(value as object) };
  copy[key] = replaced(copy[key], rest, other);
  return copy;
}

test('a sound part and a sound result pass', () => {
  expect(checkDefinition(sound, rules)).toEqual({ ok: true, definition: sound });
  expect(checkBuilt(built)).toEqual({ ok: true, built });
});

test.each([
  ['definition', (value: unknown) => checkDefinition(value, rules), sound],
  ['result', checkBuilt, built],
] as const)(
  'whatever stands for a %s is told in sentences or passes, and nothing is thrown',
  (_, check, good) => {
    fc.assert(
      fc.property(fc.oneof(anything, spoiled(good)), (value) => {
        const reading = check(value);
        if (reading.ok) return;
        expect(reading.problems.length).toBeGreaterThan(0);
        for (const problem of reading.problems) {
          expect(problem.message).not.toBe('');
          expect(formatInput(problem)).not.toMatch(/\n|\[object|undefined/);
          expect(formatInput(problem).length).toBeLessThan(400);
        }
      }),
      { numRuns: 2000 },
    );
  },
);

test('a getter that throws is told', () => {
  const problems = (value: unknown) => {
    const reading = checkDefinition(value, rules);
    return reading.ok ? [] : reading.problems.map((p) => formatInput(p));
  };
  const thrower = Object.defineProperty({}, 'name', {
    enumerable: true,
    get: () => {
      throw new Error('no');
    },
  });
  expect(problems(thrower)).toEqual(['cannot be read: no']);
  const bad = checkBuilt({
    get solid() {
      throw new Error('no');
    },
  });
  expect(bad).toMatchObject({ problems: [{ message: 'returned what cannot be read: no' }] });
  expect(problems({ ...sound, parameters: z.object({ out: size }) })).toEqual([
    'parameters.out: clashes with the option --out of make; call it otherwise',
  ]);
});
