import { expect, test } from 'vitest';
import { offsetMesh } from '../../../../core/mesh/offset/index.js';
import { inspectMesh } from '../../../../core/solid/index.js';
import { loadKernel } from '../../../../core/solid/kernel.js';
import { expectSound } from '../../../helpers/expect-sound.js';
import { bunnyMesh } from './bunny.js';

test.each([0.25, 0.5, -0.5])('a scan of 3,674 triangles by %d mm', async (d) => {
  const kernel = await loadKernel();
  const scan = bunnyMesh();
  const { mesh, error } = offsetMesh(kernel, scan, new Float64Array(scan.triangles.length / 3).fill(d));
  expectSound(mesh);
  const [before, after] = [inspectMesh(scan), inspectMesh(mesh)];
  // To the first order a body grows by its area times the amount; the scan's bends add a few parts in a hundred of it.
  expect(Math.abs((after.volume - before.volume) / (before.area * d) - 1)).toBeLessThan(0.04);
  // Coarse facets do not all meet in a point: worst at the tips of the ears.
  expect(error.mean).toBeLessThan(0.01 * Math.abs(d));
  expect(error.max).toBeLessThan(Math.abs(d));
});
