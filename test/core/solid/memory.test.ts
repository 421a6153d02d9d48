import { expect, it } from 'vitest';
import { loadKernel } from '../../../core/solid/index.js';

it('a thousand parts in one process leave the kernel’s memory as it was after the first hundred', async () => {
  const kernel = await loadKernel();
  const part = (i: number): number =>
    kernel.scope(() => {
      const body = kernel.sphere([0, 0, 0], 10 + (i % 7), 0.05);
      const drilled = body.subtract(
        kernel.frustum([i % 3, 0], -30, 3, 30, 2, 0.05),
        kernel.box([-30, -30, -30], [30, 30, -5]),
      );
      return drilled.mesh().triangles.length;
    });
  const used = (): number => process.memoryUsage().arrayBuffers + process.memoryUsage().external;
  for (let i = 0; i < 100; i++) part(i);
  const settled = used();
  for (let i = 0; i < 900; i++) expect(part(i)).toBeGreaterThan(0);
  // The WASM heap only ever grows, in steps of 64 KiB and more; a leak of a part's 100 kB would be 90 MB.
  expect(used() - settled).toBeLessThan(24e6);
}, 120_000);
