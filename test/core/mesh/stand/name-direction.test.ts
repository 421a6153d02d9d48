import { expect, test } from 'vitest';
import { nameDirection } from '../../../../core/mesh/stand/reasons.js';
import type { Vec3 } from '../../../../core/solid/types.js';

test.each<[Vec3, string]>([
  [[0, 0, 1], 'as it is'],
  [[0, -1, 0], 'with its front (−y) up'],
  [[-0.002, -0.004, 0.99999], 'nearly as it is'],
  [[-0.77, 0, -0.64], 'with (−0.77, 0.00, −0.64) up'],
  [[-0.001, -0.8, 0.6], 'with (0.00, −0.80, 0.60) up'],
])('%j is %s', (up, name) => expect(nameDirection(up)).toBe(name));
