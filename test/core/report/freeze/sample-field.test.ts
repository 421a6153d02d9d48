import { describe, expect, test } from 'vitest';
import { sampleMetal } from '../../../../core/report/freeze/sample-field.js';
import { loadKernel } from '../../../../core/solid/kernel.js';
import { madeUpFields } from '../../../helpers/made-up-fields.js';

const kernel = await loadKernel();
const block = kernel.scope(() => kernel.box([0, 0, 0], [20, 12, 8]).mesh());
const plane = ([x, y, z]: readonly [number, number, number]): number => 5 + 2 * x - 3 * y + 7 * z;
const fields = madeUpFields(block, 2, plane);
const sample = sampleMetal(fields, fields.solidAt);

describe('a field between the middles of cells', () => {
  test('a flat one is itself all through the metal, to half a cell under the surface', () => {
    for (const [x, y, z] of [
      [1, 1, 1],
      [10.3, 6.2, 3.9],
      [18.9, 10.7, 6.8],
      [4, 6, 4],
    ] as const)
      expect(sample(x, y, z)).toBeCloseTo(plane([x, y, z]), 3);
  });

  test('at the surface it is that of the metal under it: the mould does not count', () => {
    expect(sample(10, 6, 8)).toBeCloseTo(plane([10, 6, 7]), 3);
    expect(sample(0, 6, 4)).toBeCloseTo(plane([1, 6, 4]), 3);
  });

  test('a little outside: the nearest metal’s; far off: none', () => {
    expect(sample(10, 6, 10.5)).toBeCloseTo(plane([9, 5, 7]), 0);
    expect(sample(10, 6, 8 + 3 * 2 + 5)).toBeNaN();
    expect(sample(500, 6, 4)).toBeNaN();
  });

  test('asked in any order it says the same', () => {
    const far = sample(18, 10, 6);
    sample(1, 1, 1);
    sample(-400, 1, 1);
    expect(sample(18, 10, 6)).toBe(far);
  });
});
