import { expect, test } from 'vitest';
import { alloys } from '../../../../core/foundry/alloys/index.js';
import { gatingMetal } from '../../../../core/foundry/gating/index.js';
import { findInvestment } from '../../../../core/foundry/investment.js';

const gypsum = findInvestment('gypsum-bonded')!;

const family = (name: string): string | undefined => {
  const alloy = alloys.find((a) => a.name === name);
  return alloy && gatingMetal(alloy, gypsum).family;
};

test('alloys fall into the families of the pouring rules by what they are made of', () => {
  expect(family('tin-bronze')).toBe('tin-bronze');
  expect(family('yellow-brass')).toBe('brass');
  expect(family('aluminium-bronze')).toBe('aluminium-bronze');
  // Zinc comes first: manganese bronze is a high-strength brass, though it holds aluminium.
  expect(family('manganese-bronze')).toBe('brass');
  expect(family('silicon-bronze')).toBe('copper');
  expect(family('a356')).toBe('aluminium');
  expect(family('grey-iron')).toBe('iron');
  expect(family('pewter')).toBe('other');
});

test('each alloy’s freezing factor is of the order of seconds for a millimetre of modulus', () => {
  for (const alloy of alloys) {
    const { freezingFactor } = gatingMetal(alloy, gypsum);
    expect(freezingFactor).toBeGreaterThan(5);
    expect(freezingFactor).toBeLessThan(100);
  }
});
