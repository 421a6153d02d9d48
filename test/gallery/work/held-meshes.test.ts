import { expect, test, vi } from 'vitest';
import { HeldMeshes } from '../../../gallery/page/work/held-meshes.js';
import type { Sources } from '../../../gallery/page/work/protocol.js';
import { SentMeshes } from '../../../gallery/page/work/sent-meshes.js';
import { blockStl } from '../../browser/harness/own-meshes.js';

const job = 'job: a\nparts:\n  - { name: a, part: mesh, parameters: { file: block.stl } }\n';
const withMesh = (id: string, name = 'block.stl'): Sources => ({ job, meshes: [{ name, id }] });

/** A blob that counts how often it is read. */
function counted(bytes: string | Buffer) {
  const blob = new Blob([bytes as BlobPart]);
  const reads = vi.spyOn(blob, 'arrayBuffer');
  return { blob, reads };
}

test('bytes go to a worker once, and again only when it has let go of them', () => {
  const [a, b] = [new Blob(['a']), new Blob(['b'])];
  const sent = new SentMeshes((id) => ({ a, b })[id]);
  expect(sent.toBring(withMesh('a'))).toEqual({ meshes: [{ id: 'a', blob: a }] });
  expect(sent.toBring(withMesh('a'))).toEqual({});
  expect(sent.toBring(withMesh('b'))).toEqual({ meshes: [{ id: 'b', blob: b }] });
  expect(sent.toBring({ job })).toEqual({});
  expect(sent.toBring(withMesh('b'))).toEqual({ meshes: [{ id: 'b', blob: b }] });
  sent.forget();
  expect(sent.toBring(withMesh('b'))).toEqual({ meshes: [{ id: 'b', blob: b }] });
});

test('a file is read once, however many orders come, and is the same to all of them', async () => {
  const held = new HeldMeshes();
  const { blob, reads } = counted(blockStl(40, 25, 12));
  const files: unknown[] = [];
  for (const [order, quantity] of [1, 2, 3].entries()) {
    const sources = { ...withMesh('a'), job: job.replace('part:', `quantity: ${quantity}, part:`) };
    held.take({ sources, ...(order === 0 ? { meshes: [{ id: 'a', blob }] } : {}) });
    const reading = await held.read(sources);
    if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
    files.push(reading.job.meshFiles?.get('block.stl'));
  }
  expect(reads).toHaveBeenCalledTimes(1);
  expect(files[0]).toMatchObject({ format: 'stl', mesh: { triangles: { length: 36 } } });
  expect(new Set(files).size).toBe(1);
});

test('a file that cannot be read is told where the job names it, once it is known every time', async () => {
  const held = new HeldMeshes();
  const { blob, reads } = counted('solid a\nfacet normal');
  held.take({ sources: withMesh('a'), meshes: [{ id: 'a', blob }] });
  for (let times = 0; times < 2; times++)
    expect(await held.read(withMesh('a'))).toMatchObject({
      ok: false,
      problems: [
        { path: ['parts', '0', 'parameters', 'file'], message: expect.stringMatching(/cannot be used/) },
      ],
    });
  expect(reads).toHaveBeenCalledTimes(1);
});

test('what an order does not name is let go of, and what the browser has lost is told', async () => {
  const held = new HeldMeshes();
  const { blob } = counted(blockStl(1, 1, 1));
  held.take({ sources: withMesh('a'), meshes: [{ id: 'a', blob }] });
  held.take({ sources: { job } });
  held.take({ sources: withMesh('a') });
  expect(await held.read(withMesh('a'))).toMatchObject({
    ok: false,
    problems: [{ message: expect.stringMatching(/no longer held/) }],
  });
  const gone = Object.assign(new Blob(['a']), { arrayBuffer: () => Promise.reject(new Error('gone')) });
  held.take({ sources: withMesh('b'), meshes: [{ id: 'b', blob: gone }] });
  expect(await held.read(withMesh('b'))).toMatchObject({
    ok: false,
    problems: [{ message: expect.stringMatching(/no longer held/) }],
  });
});

test('jobs without meshes are read as ever', async () => {
  const held = new HeldMeshes();
  const sources = { job: 'job: a\nparts: [{ name: a, part: knob }]\n' };
  held.take({ sources });
  const reading = await held.read(sources);
  expect(reading.ok && reading.job.meshFiles).toBe(undefined);
});

test('a file that says it holds more than the page takes on is refused before it is read', async () => {
  const held = new HeldMeshes();
  const lines = ['ply', 'format ascii 1.0', 'element vertex 7000000', 'property float x', 'end_header', ''];
  const { blob } = counted(lines.join('\n'));
  held.take({ sources: withMesh('a'), meshes: [{ id: 'a', blob }] });
  expect(await held.read(withMesh('a'))).toMatchObject({
    ok: false,
    problems: [{ message: expect.stringMatching(/cannot be used: .*(7.?000.?000|6.?300.?000)/) }],
  });
});
