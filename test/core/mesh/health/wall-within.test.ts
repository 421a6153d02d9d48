import { beforeAll, expect, test } from 'vitest';
import { wallWithin } from '../../../../core/mesh/health/index.js';
import { loadKernel } from '../../../../core/solid/index.js';
import type { Kernel, Mesh } from '../../../../core/solid/types.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

test('a plate is as thick as it is, whatever its small parts', () => {
  const plate = kernel.scope(() => kernel.box([0, 0, 0], [60, 40, 5]).mesh());
  expect(wallWithin(plate, 0.03)).toBeCloseTo(5, 4);
  // A fin of 1 mm on it has 2 · 3 · 4 of some 5,800 mm² of surface.
  const finned = kernel.scope(() =>
    kernel
      .box([0, 0, 0], [60, 40, 5])
      .add(kernel.box([20, 20, 4], [21, 23, 9]))
      .mesh(),
  );
  expect(wallWithin(finned, 0.03)).toBeCloseTo(5, 4);
  expect(wallWithin(finned, 0)).toBeCloseTo(1, 4);
});

test('half a plate thin, half thick: the thin half counts', () => {
  const stepped: Mesh = kernel.scope(() =>
    kernel
      .box([0, 0, 0], [60, 40, 3])
      .add(kernel.box([-60, 0, 0], [1, 40, 12]))
      .mesh(),
  );
  expect(wallWithin(stepped, 0.03)).toBeCloseTo(3, 4);
});
