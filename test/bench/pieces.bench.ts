/**
 * Pieces of the work by themselves: `npm run bench -- pieces`. Processor time, the least of three, against what is wanted.
 * Not among the tests: it wants a quiet machine.
 */
import { expect, test } from 'vitest';
import { writeStl } from '../../core/files/stl.js';
import { cellRole } from '../../core/freeze/cast-fields.js';
import { latePlaces } from '../../core/freeze/readings/late-places.js';
import { freezePart } from '../../core/job/freeze-part.js';
import { reportLog } from '../../core/log/report.js';
import { fieldVolume } from '../../core/report/freeze/field-volume.js';
import { renderPreview } from '../../core/report/render/index.js';
import { sphere, torus } from '../core/files/shapes.js';
import { makeOne } from '../helpers/cast-input.js';
import { evenGrid, fieldsOf } from '../helpers/freeze-readings.js';
import { manyPours } from '../helpers/many-pours.js';
import { say } from './sheet.js';

/** Calls `work` four times, the first to warm it up; `wanted` in s. */
function time(what: string, wanted: number, work: () => void): void {
  work();
  const times = [1, 2, 3].map(() => {
    const before = process.cpuUsage();
    work();
    const { user, system } = process.cpuUsage(before);
    return (user + system) / 1e6;
  });
  const least = Math.min(...times);
  say(`${what}: ${least.toFixed(2)} s; wanted under ${wanted} s: ${least < wanted ? 'met' : 'NOT MET'}`);
}

test('pictures and files of a mesh', () => {
  const ring = torus(30, 9, 250, 50);
  expect(ring.triangles.length / 3).toBe(25_000);
  time('preview of 25,000 triangles, 800 × 600', 0.7, () => renderPreview(ring, { width: 800, height: 600 }));
  const ball = sphere(40, 160);
  time(`STL of ${ball.triangles.length / 3} triangles`, 1, () => writeStl(ball));
});

test('late places among 300 thousand cells', () => {
  const n = 67;
  const grid = evenGrid([n, n, n], 1);
  const [at, role] = [new Float32Array(grid.size), new Uint8Array(grid.size)];
  for (let c = 0; c < grid.size; c++) {
    const [x, y, z] = [c % n, Math.floor(c / n) % n, Math.floor(c / (n * n))];
    at[c] = 100 + 30 * Math.sin(x / 4) * Math.sin(y / 5) * Math.sin(z / 6) + z + ((c * 7919) % 101) / 200;
    role[c] = z < n - 12 ? cellRole.casting : cellRole.gating;
  }
  const fields = fieldsOf(grid, at, role);
  const feeding = { freezingShrinkage: 1e-3, feederEfficiency: 1 };
  expect(latePlaces(fields, feeding).length).toBeGreaterThan(20);
  time('late places among 300 thousand cells', 1.5, () => latePlaces(fields, feeding));
});

test('the picture in space of what froze', async () => {
  const { made, told, pour, job } = await makeOne('horn-cleat', {});
  const frozen = freezePart(made, told, pour, job);
  if (!frozen) throw new Error('not frozen');
  time('times of freezing of a horn cleat in space', 1.5, () => fieldVolume(frozen, 'solidAt'));
});

test('a report of ten thousand pours', () => {
  const log = manyPours(10_000);
  time('report of ten thousand pours', 5, () => reportLog(log));
});
