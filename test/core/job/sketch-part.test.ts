import { beforeAll, describe, expect, test } from 'vitest';
import type { Job, JobPart } from '../../../core/job/job.js';
import { makePart, meshStates } from '../../../core/job/make-part.js';
import { parseJob } from '../../../core/job/read-job.js';
import { sketchPart, sketchTolerance } from '../../../core/job/sketch-part.js';
import { loadKernel, measureBounds } from '../../../core/solid/index.js';
import type { Box, Kernel, Mesh } from '../../../core/solid/types.js';
import { findPart, parts } from '../../../generators/index.js';
import { jobContext } from '../../../generators/job-context.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const read = (part: string, parameters: object = {}): Job => {
  const text = JSON.stringify({ job: 'a', parts: [{ name: 'a', part, parameters }] });
  const reading = parseJob(text, jobContext('job'));
  if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
  return reading.job;
};

/** Greatest difference of the boxes' sides, mm. */
function apart(a: Mesh, b: Mesh): number {
  const [x, y] = [a, b].map((mesh) => measureBounds(mesh) as Box) as [Box, Box];
  return Math.max(
    ...[0, 1, 2].flatMap((k) => [
      Math.abs((x.min[k] as number) - (y.min[k] as number)),
      Math.abs((x.max[k] as number) - (y.max[k] as number)),
    ]),
  );
}

describe.each(parts.map((p) => [p.name, p] as const))('%s', (name, definition) => {
  test('is sketched in every state as it is made, to the sketch’s tolerance', () => {
    const job = read(name);
    for (const request of job.parts) {
      const outcome = makePart(request, definition, job, kernel);
      if (!outcome.ok) throw new Error(JSON.stringify(outcome.findings));
      const { meshes, standing, gatingMesh } = outcome.made;
      for (const state of meshStates) {
        const sketched = sketchPart(request, definition, job, kernel, state);
        if (!sketched.ok) throw new Error(JSON.stringify(sketched.findings));
        const { sketch } = sketched;
        const bound = 2 * sketchTolerance;
        if (state === 'gated') {
          expect(apart(sketch.meshes.pattern as Mesh, standing)).toBeLessThan(bound);
          // The gating follows the part's volume and area, which a sketch has a little wrong.
          expect(apart(sketch.gating as Mesh, gatingMesh)).toBeLessThan(6);
        } else {
          const mesh = sketch.meshes[state] as Mesh;
          expect(apart(mesh, meshes[state])).toBeLessThan(bound);
          expect(mesh.triangles.length).toBeLessThan(meshes[state].triangles.length);
        }
        if (state === 'casting') expect(sketch.meshes.part).toBeDefined();
      }
    }
  });
});

test('what cannot be made is refused with its findings', () => {
  const job = read('spur-gear', { teeth: 12, bore: 60 });
  const definition = findPart('spur-gear');
  for (const state of meshStates) {
    const outcome = sketchPart(job.parts[0] as JobPart, definition as never, job, kernel, state);
    expect(outcome).toMatchObject({ ok: false, findings: [expect.objectContaining({ severity: 'stop' })] });
  }
});

test('a tolerance that no mesh can hold is refused, not thrown', () => {
  const job = { ...read('deck-eye'), tolerance: 0.001 };
  const outcome = makePart(job.parts[0] as JobPart, findPart('deck-eye') as never, job, kernel);
  expect(outcome).toMatchObject({ ok: false, findings: [{ severity: 'stop', code: 'tolerance-too-fine' }] });
});
