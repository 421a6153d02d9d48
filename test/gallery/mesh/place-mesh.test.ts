import { describe, expect, test } from 'vitest';
import { draftOf } from '../../../gallery/page/bench/state.js';
import {
  missingMeshes,
  type Placed,
  placeMesh,
  placeMeshFor,
} from '../../../gallery/page/mesh/place-mesh.js';
import type { Sources } from '../../../gallery/page/work/protocol.js';

const job = `job: brackets # two of them
parts:
  - { name: a, part: mesh, parameters: { file: scans/one.stl } }
  - { name: b, part: mesh, parameters: { file: scans/one.stl } }
  - { name: c, part: mesh, parameters: { file: two.stl } }
  - { name: knob, part: knob }
`;
const entriesOf = (sources: Sources) => draftOf(sources, 0).entries;
const place = (sources: Sources, name: string): Placed =>
  placeMesh(sources, entriesOf(sources), { name, id: `new ${name}` });
const placeFor = (sources: Sources, name: string, instead: string | undefined, path?: string[]): Placed =>
  placeMeshFor(sources, entriesOf(sources), { name, id: `new ${name}` }, instead, path);
const open = (...names: string[]): Sources => ({
  job,
  log: { fileName: 'pour-log.jsonl', text: '' },
  meshes: names.map((name) => ({ name, id: `old ${name}` })),
});

test('files that a job names and that are not open are told, each once', () => {
  expect(missingMeshes(entriesOf({ job }), { job } as Sources)).toEqual(['scans/one.stl', 'two.stl']);
  expect(missingMeshes(entriesOf({ job }), open('two.stl'))).toEqual(['scans/one.stl']);
  for (const text of ['', 'job: a\nparts: [7, { part: mesh }, { part: mesh, parameters: { file: [] } }]\n'])
    expect(missingMeshes(entriesOf({ job: text }), {})).toEqual([]);
});

test('a job whose files are not open has a problem where it names each, and none when they are', () => {
  expect(draftOf({ job }, 0).refusal?.problems).toEqual([
    ...['0', '1', '2'].map((i) =>
      expect.objectContaining({
        code: 'unreadable-file',
        path: ['parts', i, 'parameters', 'file'],
        message: expect.stringMatching(/stl, which is not open here/),
      }),
    ),
  ]);
  expect(draftOf(open('scans/one.stl', 'two.stl'), 0).refusal).toBeNull();
});

describe('an opened file', () => {
  test('mends the job that misses it, by its name or the last of a path, without a change of the text', () => {
    const { sources, how } = place(open('two.stl'), 'one.stl');
    expect(how).toBe('mended');
    expect(sources).toEqual({
      ...open(),
      meshes: [
        { name: 'two.stl', id: 'old two.stl' },
        { name: 'scans/one.stl', id: 'new one.stl' },
      ],
    });
  });

  test('comes in place of the open one of its name', () => {
    const { sources, how } = place(open('scans/one.stl', 'two.stl'), 'two.stl');
    expect(how).toBe('replaced');
    expect(sources.job).toBe(job);
    expect(sources.meshes?.map(({ id }) => id)).toEqual(['old scans/one.stl', 'new two.stl']);
    const byPath = place(open('scans/one.stl', 'two.stl'), 'one.stl');
    expect(byPath).toMatchObject({ how: 'replaced', sources: { job } });
    expect(byPath.sources.meshes?.at(-1)).toEqual({ name: 'scans/one.stl', id: 'new one.stl' });
  });

  test('is otherwise a piece of its own, and the comments stay', () => {
    const { sources, how } = place(open('scans/one.stl', 'two.stl'), 'Knob.stl');
    expect(how).toBe('added');
    expect(sources.job).toContain('# two of them');
    expect(entriesOf(sources).at(-1)).toMatchObject({
      name: 'knob-2',
      part: 'mesh',
      raw: { parameters: { file: 'Knob.stl' } },
    });
    expect(draftOf(sources, 0).refusal).toBeNull();
  });

  test('is not lost in a text that has to be mended first', () => {
    const broken: Sources = { job: 'job: a\nparts:\n  - {' };
    expect(place(broken, 'one.stl')).toEqual({ sources: broken, how: 'unreadable' });
    expect(placeFor(broken, 'one.stl', 'two.stl')).toEqual({ sources: broken, how: 'unreadable' });
  });

  test('of another name gives the job that name, wherever it named the missing one', () => {
    const { sources } = placeFor(open('two.stl'), 'mine.ply', 'scans/one.stl');
    expect(sources.job).toBe(job.replaceAll('scans/one.stl', 'mine.ply'));
    expect(draftOf(sources, 0).refusal).toBeNull();
  });

  test('for one piece changes that piece alone', () => {
    const at = ['parts', '1', 'parameters', 'file'];
    const { sources } = placeFor(open('scans/one.stl', 'two.stl'), 'mine.ply', 'scans/one.stl', at);
    expect(entriesOf(sources).map((e) => (e.raw.parameters as { file?: string } | undefined)?.file)).toEqual([
      'scans/one.stl',
      'mine.ply',
      'two.stl',
      undefined,
    ]);
    expect(draftOf(sources, 0).refusal).toBeNull();
  });

  test('for a piece that names none yet is named', () => {
    const text = 'job: a\nparts:\n  - { name: a, part: mesh }\n';
    const at = ['parts', '0', 'parameters', 'file'];
    const { sources } = placeFor({ job: text }, 'mine.ply', undefined, at);
    expect(draftOf(sources, 0).refusal).toBeNull();
  });

  test('takes the room of files that the job no longer names', () => {
    const { sources } = place(open('gone.stl', 'two.stl'), 'one.stl');
    expect(sources.meshes?.map(({ name }) => name)).toEqual(['two.stl', 'scans/one.stl']);
  });
});
