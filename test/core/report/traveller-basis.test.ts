import { expect, test } from 'vitest';
import { type BasisEntry, basisList } from '../../../core/report/traveller/basis.js';

const text = (entries: readonly BasisEntry[]): string =>
  basisList(entries)
    .text.replace(/<[^>]*>/g, ' ')
    .replace(/\s+/g, ' ');
const entry = (where: string, rule: string, source = 'Rao'): BasisEntry => ({
  label: 'pour time',
  where,
  basis: { rule, source },
});

test('one rule with other quantities is said once, with their range; constants of a rule are not quantities', () => {
  const list = text([
    entry('wheel', 'at most 2.8 s: t ≤ K W^(1/3), K = 2.8, s and kg'),
    entry('pinion', 'at most 1.7 s: t ≤ K W^(1/3), K = 2.8, s and kg'),
    entry('cleat', 'at most 10.5 s: t ≤ K W^(1/3), K = 2.8, s and kg'),
    entry('pull', 'at most 1.1 s: t ≤ K W^(1/3), K = 1.9, s and kg'),
  ]);
  expect(list).toContain('(wheel, pinion, cleat): at most 1.7 to 10.5 s: t ≤ K W^(1/3), K = 2.8, s and kg');
  expect(list).toContain('(pull): at most 1.1 s: t ≤ K W^(1/3), K = 1.9, s and kg');
  expect(list.match(/pour time/g)).toHaveLength(2);
});

test('what has another source stays apart', () => {
  const list = text([
    entry('a', 'at 538 °C', 'x'),
    entry('b', 'at 520 °C', 'y'),
    entry('c', 'at 502 °C', 'x'),
  ]);
  expect(list).toContain('at 502 to 538 °C [x]');
  expect(list).toContain('at 520 °C [y]');
});
