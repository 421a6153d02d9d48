import type { PourRecord } from '../../core/log/record.js';
import { pour } from './pour.js';
import { seeded } from './seeded.js';

/** Pours of a shop that has logged for long: sizes, settings and now and then a fault, all invented. */
export function manyPours(count: number): readonly PourRecord[] {
  const random = seeded(3);
  return Array.from({ length: count }, (_, i) =>
    pour({
      id: `test-${10_000 + i}`,
      settings: { metalTemperature: 1050 + 150 * random(), burnoutHold: 3600 * Math.floor(6 * random()) },
      sizes: [20, 40, 60].map((c) => ({
        name: `${c}`,
        axis: 'xy',
        pattern: c * (1.016 + 0.002 * random()),
        casting: c,
      })),
      faults: random() < 0.2 ? ['porosity'] : [],
    }),
  );
}
