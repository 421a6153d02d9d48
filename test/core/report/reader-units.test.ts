import { expect, test } from 'vitest';
import { readersUnits } from '../../../core/report/reader-units.js';

const inches = { lengthUnit: 'in', degrees: 'F' } as const;

// 25.4 mm to the inch and 1.8 °C + 32, exact by definition.
test('millimetres and degrees in a sentence are given again for an inch reader', () => {
  expect(readersUnits('A wall of 3.5 mm at 730 °C.', inches)).toBe(
    'A wall of 3.5 mm (0.138 in) at 730 °C (1346 °F).',
  );
  expect(readersUnits('ø50.8 × 76.2 mm inside, of M6 × 70 mm', inches)).toBe(
    'ø50.8 × 76.2 mm (ø2 × 3 in) inside, of M6 × 70 mm (2.756 in)',
  );
  expect(readersUnits('It needs 254 × 127 × 25.4 mm, 0.0 to 50.8 mm up', inches)).toBe(
    'It needs 254 × 127 × 25.4 mm (10 × 5 × 1 in), 0.0 to 50.8 mm (0 to 2 in) up',
  );
  expect(readersUnits('Use 12.7\u00A0mm.', inches)).toContain('(0.5 in)');
  expect(readersUnits('Open near -12.7, 25.4, 0 mm', inches)).toBe(
    'Open near -12.7, 25.4, 0 mm (-0.5, 1, 0 in)',
  );
  expect(readersUnits('of 3-25.4 mm', inches)).toBe('of 3-25.4 mm (1 in)');
});

test('a difference of temperatures has no offset', () => {
  expect(readersUnits('core and skin are 20 °C or more apart; 50 °C cooler than 500 °C', inches)).toBe(
    'core and skin are 20 °C (36 °F) or more apart; 50 °C (90 °F) cooler than 500 °C (932 °F)',
  );
});

// 28.349523125 g to the ounce, 16 oz to the pound, exact by definition.
test('masses too', () => {
  expect(readersUnits('It weighs 17.5 kg; 1.27 kg/s of 8.8 g/cm³, or 100 g.', inches)).toBe(
    'It weighs 17.5 kg (38 lb 9.3 oz); 1.27 kg/s (2.8 lb/s) of 8.8 g/cm³, or 100 g (3.53 oz).',
  );
});

// 25.4 mm to the inch, cubed and squared; 453.59237 g to the pound.
test('speeds, areas and volumes as the tables have them', () => {
  expect(readersUnits('Metal enters at 0.53 m/s; over 2.54 m/s, or 508 mm/s.', inches)).toBe(
    'Metal enters at 0.53 m/s (20.9 in/s); over 2.54 m/s (8.33 ft/s), or 508 mm/s (20.0 in/s).',
  );
  expect(readersUnits('asks for 16.4 cm³; can give 2.2 cm³, 820 mm³', inches)).toBe(
    'asks for 16.4 cm³ (1.00 in³); can give 2.2 cm³ (0.13 in³), 820 mm³ (0.0500 in³)',
  );
  expect(readersUnits('Vents have 129 mm² in all', inches)).toBe('Vents have 129 mm² (0.200 in²) in all');
});

test('rates and what is already dual are left alone', () => {
  for (const text of ['100 °C/h', '3.5 mm (0.138 in)', '2 m/s (78.7 in/s)', '0.5 N/mm²', '8.8 g/cm³']) {
    expect(readersUnits(text, inches)).toBe(text);
  }
});

test('a metric reader reads the text as it is', () => {
  expect(readersUnits('3.5 mm at 730 °C', { lengthUnit: 'mm', degrees: 'C' })).toBe('3.5 mm at 730 °C');
});
