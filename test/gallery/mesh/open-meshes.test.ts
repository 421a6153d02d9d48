import { expect, test, vi } from 'vitest';
import { largestFile } from '../../../gallery/page/mesh/limits.js';
import { OpenMeshes } from '../../../gallery/page/mesh/open-meshes.js';
import { sortFiles } from '../../../gallery/page/mesh/sort-files.js';

/** A file that says it is large. */
const sized = (name: string, size: number): File =>
  Object.defineProperty(new File(['solid'], name), 'size', { value: size });
const megabytes = (count: number): number => count * 2 ** 20;

test('a file’s bytes are had by its id, another for every opening', async () => {
  const meshes = new OpenMeshes();
  const opened = [await meshes.open(new File(['a'], 'a.stl')), await meshes.open(new File(['b'], 'a.stl'))];
  const texts = await Promise.all(opened.map((it) => (it.ok ? meshes.bytes(it.ref.id)?.text() : undefined)));
  expect(texts).toEqual(['a', 'b']);
});

test.each([
  ['of another kind', new File(['a'], 'a.step'), /no mesh file: open STL/],
  ['that is empty', new File([], 'a.stl'), /empty/],
  ['of 101 MB', sized('a.stl', largestFile + 1), /101 MB.*at most 100 MB.*command line/],
  ['with a name that runs backwards', new File(['a'], '\u202egpj.a'), /\\u202e/],
])('a file %s is not opened, and that is said', async (_, file, told) => {
  const opening = await new OpenMeshes().open(file);
  expect(opening.ok ? '' : opening.message).toMatch(told);
});

test('a file that cannot be read is told', async () => {
  const file = Object.assign(new File(['a'], 'a.stl'), {
    arrayBuffer: () => Promise.reject(new DOMException('', 'NotReadableError')),
  });
  expect(await new OpenMeshes().open(file)).toMatchObject({
    ok: false,
    message: expect.stringMatching(/cannot be read/),
  });
});

test('when the room is used up, the oldest that is not in use goes, and what is in use never', async () => {
  const blobs = vi.spyOn(globalThis, 'Blob').mockImplementation(
    // A blob of a file is as large as the file.
    class {
      readonly size = megabytes(90);
    } as unknown as typeof Blob,
  );
  try {
    const meshes = new OpenMeshes();
    const open = async (name: string, inUse: Parameters<OpenMeshes['open']>[1] = []) => {
      const opening = await meshes.open(sized(name, megabytes(90)), inUse);
      return opening.ok ? opening.ref : opening.message;
    };
    const [a, b] = [await open('a.stl'), await open('b.stl')];
    if (typeof a === 'string' || typeof b === 'string') throw new Error('not opened');
    expect(await open('c.stl', [a, b])).toMatch(/more than 250 MB/);
    expect([a, b].map(meshes.has)).toEqual([true, true]);
    expect(await open('c.stl', [a])).toMatchObject({ name: 'c.stl' });
    expect([a, b].map(meshes.has)).toEqual([true, false]);
  } finally {
    blobs.mockRestore();
  }
});

test('without a database nothing is kept, and nothing thrown', async () => {
  const meshes = new OpenMeshes();
  const opening = await meshes.open(new File(['a'], 'a.stl'));
  if (!opening.ok) throw new Error(opening.message);
  expect(await meshes.keep([opening.ref])).toBe(false);
  await new OpenMeshes().recall([opening.ref]);
});

test('dropped files are told apart by their names', () => {
  const files = ['a.stl', 'old.yaml', 'b.3MF', 'job.yml', 'notes<b>.txt'].map((name) => new File([''], name));
  const { job, meshes, refusal } = sortFiles(files);
  expect(job?.name).toBe('job.yml');
  expect(meshes.map(({ name }) => name)).toEqual(['a.stl', 'b.3MF']);
  expect(refusal).toMatch(/^notes<b>\.txt is not opened/);
  expect(sortFiles([]).refusal).toBeNull();
});
