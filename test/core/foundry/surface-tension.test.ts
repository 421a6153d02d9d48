/** What the metal's pressure gets into. */
import { expect, test } from 'vitest';
import { edgeRadius, surfaceTension } from '../../../core/foundry/surface-tension.js';

test.each([
  // By hand: 1.3/(8000 × 9.807 × 0.05), 0.87 × 2/(2400 × 9.807 × 0.075).
  ['copper', 8e-3, 50, 0.3314],
  ['aluminium', 2.4e-3, 75, 0.9857],
] as const)('%s, %f g/mm³ under %f mm: r = %f mm (Laplace, γ/(ρ g h))', (family, density, head, radius) => {
  expect(edgeRadius(surfaceTension[family], density, head)).toBeCloseTo(radius, 3);
});

test('water in a slot: capillary rise read backwards, h = 2γ/(ρ g w) (0.0728 N/m, 0.2 mm: 74.2 mm; any physics text)', () => {
  expect(2 * edgeRadius(0.0728, 1e-3, 74.24)).toBeCloseTo(0.2, 3);
});
