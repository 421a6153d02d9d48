import { expect, test } from 'vitest';
import { seamsOf } from '../../../../core/report/freeze/seams.js';
import type { Vec2 } from '../../../../core/solid/types.js';

const casting: readonly Vec2[] = [
  [0, 0],
  [20, 0],
  [20, 10],
  [0, 10],
];
/** The same with a sprue 6 wide on its upper side. */
const gated: readonly Vec2[] = [
  [0, 0],
  [20, 0],
  [20, 10],
  [13, 10],
  [13, 30],
  [7, 30],
  [7, 10],
  [0, 10],
];

test('only where the sprue stands, within the piece that is looked at', () => {
  const seams = seamsOf([casting], [gated]);
  expect(seams).toHaveLength(1);
  const xs = seams[0]!.map(([x]) => x);
  expect(Math.abs(Math.min(...xs) - 7)).toBeLessThan(0.4);
  expect(Math.abs(Math.max(...xs) - 13)).toBeLessThan(0.4);
  for (const [, y] of seams[0]!) expect(y).toBe(10);
});

test('none where both are one', () => {
  expect(seamsOf([casting], [casting])).toEqual([]);
});
