/** Links in the way of what is written and deleted: none is followed into what is not the program's. */
import {
  cpSync,
  existsSync,
  lstatSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  readlinkSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { thisHost } from '../../core/files/folder-siblings.js';
import { ensureBuilt } from '../cli/helpers/built.js';
import { listing, temporaryFolder } from '../cli/helpers/folders.js';
import { expectClear, inLanes, runProgram } from './helpers/program.js';
import { found, giveJob, mixedJob, namesOn, newShelf, plate, type Shelf, smallJob } from './helpers/shelf.js';

beforeAll(ensureBuilt);

const root = temporaryFolder();
const patience = 600_000;

let old: Shelf;
let whole: readonly string[] = [];

beforeAll(async () => {
  old = newShelf(root, 'old');
  giveJob(old, smallJob(20));
  expect((await runProgram(plate, { cwd: old.cwd })).code).toBe(0);
  const fresh = newShelf(root, 'fresh');
  giveJob(fresh, smallJob(24));
  expect((await runProgram(plate, { cwd: fresh.cwd })).code).toBe(0);
  whole = found(fresh);
}, patience);

/** A shelf with a job, and beside it a folder of things nobody wants to lose. */
function shelfBeside(name: string): Shelf & { readonly precious: string; readonly kept: () => void } {
  const shelf = newShelf(root, name);
  giveJob(shelf, smallJob(24));
  const precious = join(shelf.cwd, 'precious');
  mkdirSync(join(precious, 'deep'), { recursive: true });
  writeFileSync(join(precious, 'boat.jpg'), 'a boat');
  writeFileSync(join(precious, 'deep/summary.json'), '{"schemaVersion":1}');
  const before = listing(precious);
  return { ...shelf, precious, kept: () => expect(listing(precious)).toEqual(before) };
}

const copyOld = (to: string): void => cpSync(join(old.path, 'out'), to, { recursive: true });
const to = (out: string): readonly string[] => ['plate', 'job.yaml', '--out', out, '--quiet'];

describe('the output folder', () => {
  test(
    'is a link to a folder of ours, to another, to a file, to nothing: refused before it is made',
    async () => {
      const { cwd, path, precious, kept } = shelfBeside('is-a-link');
      copyOld(join(cwd, 'ours'));
      writeFileSync(join(cwd, 'file'), 'a file');
      for (const [name, target] of [
        ['ours', join(cwd, 'ours')],
        ['other', precious],
        ['file', join(cwd, 'file')],
        ['nothing', join(cwd, 'nothing')],
        ['itself', join(path, 'itself')],
      ] as const) {
        symlinkSync(target, join(path, name));
        for (const out of [`shelf/${name}`, `shelf/${name}/`]) {
          const ended = await runProgram(to(out), { cwd });
          expectClear(
            ended,
            1,
            new RegExp(`shelf/${name} is a symbolic link\\. Name the folder`),
            /Nothing was/,
          );
        }
        expect(readlinkSync(join(path, name))).toBe(target);
      }
      kept();
      expect(listing(join(cwd, 'ours'))).toEqual(found(old));
      expect(existsSync(join(cwd, 'nothing'))).toBe(false);
    },
    patience,
  );

  test(
    'has a parent that is a link: written where it leads; a link to nothing, or in a circle, is told',
    async () => {
      const { cwd, path, kept } = shelfBeside('parent');
      mkdirSync(join(cwd, 'elsewhere'));
      symlinkSync(join(cwd, 'elsewhere'), join(path, 'there'));
      symlinkSync(join(cwd, 'nothing'), join(path, 'dead'));
      symlinkSync(join(path, 'circle'), join(path, 'circle'));
      expect(await runProgram(to('shelf/there/out'), { cwd })).toMatchObject({ code: 0, err: '' });
      expect(listing(join(cwd, 'elsewhere/out'))).toEqual(whole);
      const dead = await runProgram(to('shelf/dead/out'), { cwd });
      expectClear(dead, 1, /shelf\/dead is a symbolic link that leads nowhere\. Make the folder/);
      expectClear(await runProgram(to('shelf/dead/a/b/out'), { cwd }), 1, /leads nowhere/);
      expectClear(
        await runProgram(to('shelf/circle/out'), { cwd }),
        1,
        /shelf\/circle.*(ELOOP|leads nowhere)/,
      );
      expect(existsSync(join(cwd, 'nothing'))).toBe(false);
      expect(readdirSync(join(cwd, 'elsewhere'))).toEqual(['out']);
      kept();
    },
    patience,
  );

  test(
    'holds links: they go with it, what they lead to stays',
    async () => {
      const { cwd, path, precious, kept } = shelfBeside('holds');
      const out = join(path, 'out');
      copyOld(out);
      symlinkSync(precious, join(out, 'album'));
      symlinkSync(join(precious, 'boat.jpg'), join(out, 'one/boat.jpg'));
      rmSync(join(out, 'plates'), { recursive: true });
      symlinkSync(precious, join(out, 'plates'));
      rmSync(join(out, 'one/gated.stl'));
      symlinkSync(join(precious, 'boat.jpg'), join(out, 'one/gated.stl'));
      expect(await runProgram(plate, { cwd })).toMatchObject({ code: 0, err: '' });
      expect(listing(out)).toEqual(whole);
      expect(namesOn({ cwd, path })).toEqual(['out']);
      kept();
    },
    patience,
  );

  test(
    'has a link for its summary: not taken for one of ours',
    async () => {
      const { cwd, path, precious, kept } = shelfBeside('marker');
      mkdirSync(join(path, 'out'));
      symlinkSync(join(precious, 'deep/summary.json'), join(path, 'out/summary.json'));
      expectClear(await runProgram(plate, { cwd }), 1, /was not written by this program/);
      expect(lstatSync(join(path, 'out/summary.json')).isSymbolicLink()).toBe(true);
      kept();
    },
    patience,
  );

  test(
    'links with the names of leftovers are not followed: those a dead run of this machine left go, others stay',
    async () => {
      const { cwd, path, precious, kept } = shelfBeside('leftovers');
      const noProcess = 4_194_305;
      const nameOf = (kind: string, host: string): string => `.out.${kind}-${host}-${noProcess}-00000001`;
      for (const host of [thisHost, '00000000'])
        for (const kind of ['partial', 'aside', 'trash'])
          symlinkSync(precious, join(path, nameOf(kind, host)));
      expect(await runProgram(plate, { cwd })).toMatchObject({ code: 0, out: '', err: '' });
      kept();
      expect(lstatSync(join(path, 'out')).isSymbolicLink()).toBe(false);
      expect(found({ cwd, path })).toEqual(whole);
      // No run leaves a link aside: it may be somebody's. Of another machine nobody knows yet that it is dead.
      const stay = [
        nameOf('aside', thisHost),
        ...['partial', 'aside', 'trash'].map((k) => nameOf(k, '00000000')),
      ];
      expect(namesOn({ cwd, path })).toEqual([...stay, 'out'].sort());
      for (const name of stay) expect(readlinkSync(join(path, name))).toBe(precious);
    },
    patience,
  );

  test(
    'is replaced by a link at any moment while it is written: what that leads to stays',
    async () => {
      const first = shelfBeside('count');
      copyOld(join(first.path, 'out'));
      const trace = join(root, 'trace');
      const counted = { disk: { watch: [first.path], calls: 'writing' as const, trace } };
      expect((await runProgram(plate, { cwd: first.cwd, faults: counted })).code).toBe(0);
      const calls = readFileSync(trace, 'utf8').trimEnd().split('\n');
      const rename = calls.findIndex((call) => / rename /.test(call)) + 1;
      const clearing = calls.findIndex((call) => / rm /.test(call)) + 1;
      // The folder itself, from the first call to the last rename; the moment before the exchange most of all.
      const points = [1, 2, 5, rename - 1, rename, rename + 1, rename + 2, clearing - 1, clearing];
      await inLanes(2, points, async (at) => {
        const { cwd, path, precious, kept } = shelfBeside(`swapped-${at}`);
        const out = join(path, 'out');
        copyOld(out);
        const script = `const fs = require('fs'); const [out, precious, away] = process.argv.slice(1);
        try { fs.renameSync(out, away); } catch {}
        try { fs.symlinkSync(precious, out); } catch {}`;
        const meanwhile = [process.execPath, '-e', script, out, precious, join(cwd, 'away')];
        const disk = { watch: [path], calls: 'writing' as const, at, fault: 'meanwhile' as const, meanwhile };
        const ended = await runProgram(plate, { cwd, faults: { disk } });
        kept();
        if (ended.code === 0) {
          // The link came after all was done, or the new folder has been moved away: it is whole where it is.
          const place = lstatSync(out).isSymbolicLink() ? join(cwd, 'away') : out;
          expect({ at, files: listing(place) }).toEqual({ at, files: whole });
        } else expectClear(ended, 1, /shelf\/out/);
        expect(namesOn({ cwd, path }).filter((name) => name.includes('.partial-'))).toEqual([]);
      });
    },
    patience,
  );

  test(
    'a folder of what is being written is replaced by a link: nothing is written through it',
    async () => {
      for (const at of [5, 10]) {
        const { cwd, path, precious, kept } = shelfBeside(`inside-${at}`);
        copyOld(join(path, 'out'));
        const script = `const fs = require('fs'); const [shelf, precious] = process.argv.slice(1);
        const partial = fs.readdirSync(shelf).find((name) => name.includes('.partial-'));
        fs.renameSync(shelf + '/' + partial, shelf + '/moved');
        fs.symlinkSync(precious, shelf + '/' + partial);`;
        const meanwhile = [process.execPath, '-e', script, path, precious];
        const disk = { watch: [path], calls: 'writing' as const, at, fault: 'meanwhile' as const, meanwhile };
        const ended = await runProgram(plate, { cwd, faults: { disk } });
        const told = /shelf\/out\/one\/\S+ (was taken away while it was written|is not a file of its own)\./;
        expectClear(ended, 1, told, /Nothing was written\.$/m);
        kept();
        expect(found({ cwd, path })).toEqual(found(old));
      }
    },
    patience,
  );
});

describe('the cache', () => {
  const withCache = (cache: string): readonly string[] => [...plate, '--cache', cache];
  const mixed = (shelf: Shelf): void => giveJob(shelf, mixedJob(20));

  test(
    'a link to a folder is followed; links inside it in place of parts are not',
    async () => {
      const shelf = shelfBeside('cache');
      mixed(shelf);
      mkdirSync(join(shelf.cwd, 'parts'));
      symlinkSync(join(shelf.cwd, 'parts'), join(shelf.cwd, 'cache'));
      expect(await runProgram(withCache('cache'), { cwd: shelf.cwd })).toMatchObject({ code: 0, err: '' });
      const made = found(shelf);
      const folder = join(shelf.cwd, 'parts/parts-1');
      const kept = readdirSync(folder);
      expect(kept).toHaveLength(2);
      for (const name of kept) {
        rmSync(join(folder, name));
        symlinkSync(join(shelf.precious, 'boat.jpg'), join(folder, name));
      }
      symlinkSync(shelf.precious, join(folder, `${'0'.repeat(64)}.part`));
      symlinkSync(shelf.precious, join(folder, `${'0'.repeat(64)}.0123456789abcdef.half`));
      expect(await runProgram(withCache('cache'), { cwd: shelf.cwd })).toMatchObject({ code: 0, err: '' });
      expect(found(shelf)).toEqual(made);
      expect(readdirSync(folder).sort()).toEqual([...kept].sort());
      for (const name of kept) expect(lstatSync(join(folder, name)).isFile()).toBe(true);
      shelf.kept();
    },
    patience,
  );

  test(
    'a link to nothing or to a file, or a file: told, and the job is made without',
    async () => {
      const shelf = shelfBeside('cache-dead');
      mixed(shelf);
      symlinkSync(join(shelf.cwd, 'nothing'), join(shelf.cwd, 'dead'));
      symlinkSync(join(shelf.precious, 'boat.jpg'), join(shelf.cwd, 'to-file'));
      const loud = plate.filter((word) => word !== '--quiet');
      for (const cache of ['dead', 'to-file', 'precious/boat.jpg', 'precious/boat.jpg/deeper']) {
        const ended = await runProgram([...loud, '--cache', cache], { cwd: shelf.cwd });
        expect({ cache, code: ended.code }).toEqual({ cache, code: 0 });
        expect(ended.err).toMatch(/^Parts are not kept for the next run: \S.*\.\n$/);
        expect(ended.err).not.toMatch(/undefined|Error:|ENOENT|EEXIST/);
      }
      shelf.kept();
    },
    patience,
  );
});
