import fc from 'fast-check';
import { expect, test } from 'vitest';
import { jsonChunks } from '../../../core/files/json-chunks.js';

const value = fc.letrec((tie) => ({
  value: fc.oneof(
    { depthSize: 'small' },
    fc.string({ unit: 'binary' }),
    fc.double(),
    fc.boolean(),
    fc.constantFrom(null, undefined),
    fc.array(tie('value'), { maxLength: 4 }),
    fc.dictionary(fc.string({ maxLength: 4 }), tie('value'), { maxKeys: 4, noNullPrototype: true }),
  ),
})).value;
const something = fc.oneof(fc.array(value), fc.dictionary(fc.string(), value, { noNullPrototype: true }));

test('the pieces are the text of JSON.stringify', () => {
  fc.assert(
    fc.property(something, (v) => {
      expect([...jsonChunks(v)].join('')).toBe(JSON.stringify(v, null, 2));
    }),
  );
});

test('a long list in a field comes entry by entry', () => {
  const parts = Array.from({ length: 1000 }, (_, i) => ({
    name: `part-${i}`,
    notes: ['two\nlines'],
    size: [1, 2, i],
  }));
  const summary = { schemaVersion: 1, parts, plates: [], cost: null };
  const chunks = [...jsonChunks(summary)];
  expect(chunks.join('')).toBe(JSON.stringify(summary, null, 2));
  expect(Math.max(...chunks.map((c) => c.length))).toBeLessThan(200);
});
