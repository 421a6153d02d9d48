import { expect, test } from 'vitest';
import { loadKernel } from '../../core/solid/kernel.js';
import { torus } from '../core/mesh/offset/shapes.js';
import { leastByCurvature } from './least-by-curvature.js';

test('a ball: 4πR by its one curvature', async () => {
  const kernel = await loadKernel();
  const ball = kernel.scope(() => kernel.sphere([0, 0, 0], 20, 0.002).mesh());
  const exact = (4 * Math.PI * 20) / (((3 * Math.sqrt(3)) / 2) * 0.05);
  expect(leastByCurvature(ball, 0.05, 4) / exact).toBeCloseTo(1, 1);
});

test('a ring: ∫√|K| of its outer and inner half', async () => {
  const kernel = await loadKernel();
  const [R, r] = [30, 8];
  // K = cos θ / (r (R + r cos θ)), dA = r (R + r cos θ) dθ dφ.
  const half = (from: number, to: number): number => {
    let sum = 0;
    for (let i = 0; i < 20000; i++) {
      const angle = from + ((to - from) * (i + 0.5)) / 20000;
      sum += Math.sqrt(Math.abs(Math.cos(angle)) * r * (R + r * Math.cos(angle)));
    }
    return (2 * Math.PI * sum * (to - from)) / 20000;
  };
  const exact =
    half(-Math.PI / 2, Math.PI / 2) / (((3 * Math.sqrt(3)) / 2) * 0.05) +
    half(Math.PI / 2, 1.5 * Math.PI) / (2 * Math.sqrt(5) * 0.05);
  expect(leastByCurvature(torus(kernel, R, r, 0.002), 0.05, 2) / exact).toBeCloseTo(1, 1);
});

test('a cylinder: nothing', async () => {
  const kernel = await loadKernel();
  const drum = kernel.scope(() => kernel.frustum([0, 0], 0, 20, 30, 20, 0.002).mesh());
  expect(leastByCurvature(drum, 0.05, 4)).toBeLessThan(20);
});
