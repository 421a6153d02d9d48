import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Summary } from '../../../core/job/summary.js';
import { summaryChunks } from '../../../core/job/summary-text.js';

test('any data is written as JSON has it, in pieces', () => {
  const data = fc.dictionary(fc.string(), fc.oneof(fc.jsonValue(), fc.array(fc.jsonValue())), { minKeys: 1 });
  fc.assert(
    fc.property(data, (summary) => {
      const chunks = [...summaryChunks(summary as unknown as Summary)];
      expect(chunks.join('')).toBe(`${JSON.stringify(summary, null, 2)}\n`);
    }),
  );
});

test('a long list comes item by item', () => {
  const parts = Array.from({ length: 100 }, (_, i) => ({ name: `part-${i}`, note: 'a\nb' }));
  const chunks = [...summaryChunks({ parts } as unknown as Summary)];
  expect(Math.max(...chunks.map((c) => c.length))).toBeLessThan(100);
  expect(JSON.parse(chunks.join(''))).toEqual({ parts });
});
