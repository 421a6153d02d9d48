import { expect, test } from 'vitest';
import { readersUnits } from '../../../core/report/reader-units.js';

const inches = { lengthUnit: 'in', degrees: 'F' } as const;

// 25.4 mm to the inch and 1.8 °C + 32, exact by definition.
test('millimetres and degrees in a sentence are given again for an inch reader', () => {
  expect(readersUnits('A wall of 3.5 mm at 730 °C.', inches)).toBe(
    'A wall of 3.5 mm (0.138 in) at 730 °C (1346 °F).',
  );
  expect(readersUnits('Use 12.7\u00A0mm.', inches)).toContain('(0.5 in)');
});

test('areas, speeds, rates and what is already dual are left alone', () => {
  for (const text of ['28 mm² of vent', '500 mm/s', '100 °C/h', '3.5 mm (0.138 in)']) {
    expect(readersUnits(text, inches)).toBe(text);
  }
});

test('a metric reader reads the text as it is', () => {
  expect(readersUnits('3.5 mm at 730 °C', { lengthUnit: 'mm', degrees: 'C' })).toBe('3.5 mm at 730 °C');
});
