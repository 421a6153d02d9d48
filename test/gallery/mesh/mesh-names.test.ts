import fc from 'fast-check';
import { expect, test } from 'vitest';
import { parseSafeName } from '../../../core/job/safe-name.js';
import { draftOf } from '../../../gallery/page/bench/state.js';
import { plainJob } from '../../../gallery/page/job/document.js';
import {
  baseName,
  isMeshName,
  meshFormatWords,
  meshJob,
  pieceNameOf,
  writtenName,
} from '../../../gallery/page/mesh/mesh-names.js';

test('mesh files are known by their endings', () => {
  expect(['a.stl', 'A.STL', 'b.c.3mf', 'x.obj', 'y.Ply'].every(isMeshName)).toBe(true);
  expect(['a.step', 'stl', 'a.stl.zip', 'a.', ''].some(isMeshName)).toBe(false);
  expect(meshFormatWords).toBe('STL, 3MF, OBJ or PLY');
});

test('of a path the last is the name, whichever way its strokes lean', () => {
  expect(['a.stl', 'scans/a.stl', 'C:\\scans\\a.stl', '../../a.stl'].map(baseName)).toEqual(
    Array(4).fill('a.stl'),
  );
});

test('pieces are called after their files', () => {
  expect(
    ['My Bracket (3).stl', 'Öse_für Tau.3mf', 'con.stl', 'plates.obj', '.stl', '鉄.ply', '--a--.stl'].map(
      pieceNameOf,
    ),
  ).toEqual(['my-bracket-3', 'ose-fur-tau', 'con-mesh', 'plates-mesh', 'mesh', 'mesh', 'a']);
});

const anyName = fc
  .array(
    fc.oneof(
      fc.string({ unit: 'binary' }),
      fc.constantFrom('/', '\\', '\n', '\u202e', '\ud800', '"', ': ', '#', 'yes'),
    ),
  )
  .map((texts) => `${texts.join('')}.stl`);

test('whatever a file is called, its piece has a safe name, and a job holds the file’s', () => {
  fc.assert(
    fc.property(anyName, anyName, (one, other) => {
      const names = [...new Set([writtenName(one), writtenName(other)])];
      const job = meshJob(names);
      const { parts } = plainJob(job) as { parts: { name: string; parameters: { file: string } }[] };
      expect(parts.map((part) => part.parameters.file)).toEqual(names);
      expect(new Set(parts.map(({ name }) => name)).size).toBe(names.length);
      for (const { name } of parts) expect(parseSafeName(name)).toEqual({ ok: true, value: name });
      // With the files open the job reads without a fault.
      const draft = draftOf({ job, meshes: names.map((name, i) => ({ name, id: String(i) })) }, 0);
      expect(draft.refusal).toBeNull();
    }),
  );
});

test('a long name keeps its ending', () => {
  const name = writtenName(`${'x'.repeat(5000)}.stl`);
  expect(name.length).toBe(200);
  expect(isMeshName(name)).toBe(true);
});
