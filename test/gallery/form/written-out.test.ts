import { expect, test } from 'vitest';
import { readersUnits } from '../../../core/report/reader-units.js';
import { writtenOut } from '../../../gallery/page/form/written-out.js';

test('units stand apart from their numbers, so that a reader in inches is told inches', () => {
  expect(writtenOut('as wide as the casting, at least 50mm')).toBe('as wide as the casting, at least 50 mm');
  expect(writtenOut('60deg')).toBe('60°');
  expect(writtenOut('2s')).toBe('2 s');
  expect(writtenOut('0.12 of the depth, at least 1.5 mm')).toBe('0.12 of the depth, at least 1.5 mm');
  expect(writtenOut('4 sides of M8')).toBe('4 sides of M8');
  // 25.4 mm an inch.
  expect(readersUnits(writtenOut('50.8mm'), { lengthUnit: 'in', degrees: 'C' })).toBe('50.8 mm (2 in)');
});
