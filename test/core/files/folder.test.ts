import { execFileSync, spawn } from 'node:child_process';
import { readFileSync, symlinkSync } from 'node:fs';
import * as fs from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { checkFolder, type OutputFile, recoverFolder, writeFolder } from '../../../core/files/folder.js';
import type { FolderError } from '../../../core/files/folder-error.js';
import type { FolderSystem } from '../../../core/files/folder-system.js';
import { checkOutputPath } from '../../../core/files/output-path.js';
import { makeReadOnly, mayMount, mountNote, withDisk } from '../../faults/helpers/small-disk.js';
import { failing, failure, freshShops, markOf, systemError, version } from './folder-versions.js';

/** The same files, each of which takes a while to make: the one before is on its way to the disk meanwhile. */
async function* slowly(files: readonly OutputFile[]): AsyncGenerator<OutputFile> {
  for (const file of files) {
    await new Promise((done) => setTimeout(done, 2));
    yield file;
  }
}

let shop: string;
let out: string;
const root = freshShops((...fresh) => {
  [shop, out] = fresh;
});

describe('writeFolder', () => {
  test('writes new, replaces its own, takes an empty folder, makes parents; leaves nothing beside', async () => {
    await writeFolder(out, version('old'));
    expect(await markOf(out)).toBe('old');
    await writeFolder(out, version('new', 3));
    expect(await markOf(out)).toBe('new');
    const empty = join(shop, 'empty');
    await fs.mkdir(empty);
    await writeFolder(empty, version('a'));
    await writeFolder(join(shop, 'deep', 'er', 'out'), version('b'));
    expect((await fs.readdir(shop)).sort()).toEqual(['deep', 'empty', 'out']);
    expect(await fs.readdir(join(shop, 'deep', 'er'))).toEqual(['out']);
  });

  test('takes files one by one as they are made', async () => {
    async function* make(): AsyncGenerator<OutputFile> {
      for (const f of version('slow', 2)) {
        await new Promise((done) => setTimeout(done, 1));
        yield f;
      }
    }
    await writeFolder(out, make());
    expect(await markOf(out)).toBe('slow');
  });

  test('an error while files are made is passed on; the old folder stays, nothing is left', async () => {
    await writeFolder(out, version('old'));
    const broken = function* (): Generator<OutputFile> {
      yield* version('new').slice(0, 4);
      throw new RangeError('no such gear');
    };
    await expect(writeFolder(out, broken())).rejects.toThrow(new RangeError('no such gear'));
    await expect(writeFolder(join(shop, 'a', 'b'), broken())).rejects.toThrow(RangeError);
    expect(await markOf(out)).toBe('old');
    expect(await fs.readdir(shop)).toEqual(['out']);
  });

  test("refuses another program's folder, a file, a link, the current folder, the root", async () => {
    const foreign = join(shop, 'photos');
    await fs.mkdir(foreign);
    await fs.writeFile(join(foreign, 'boat.jpg'), 'x');
    expect(await failure(writeFolder(foreign, version('v')))).toMatchObject({
      code: 'foreign-folder',
      message: expect.stringContaining('was not written by this program'),
      remedy: expect.stringContaining('Choose an empty or new folder'),
    });
    for (const summary of ['{"total": 3}', 'not json', '[]', 'null', '{"schemaVersion": "1"}']) {
      await fs.writeFile(join(foreign, 'summary.json'), summary);
      expect((await failure(checkFolder(foreign))).code).toBe('foreign-folder');
    }
    expect(await fs.readFile(join(foreign, 'boat.jpg'), 'utf8')).toBe('x');
    await fs.writeFile(join(shop, 'note'), 'x');
    expect((await failure(writeFolder(join(shop, 'note'), version('v')))).code).toBe('not-a-folder');
    expect((await failure(writeFolder(join(shop, 'note', 'out'), version('v')))).code).toBe('not-a-folder');
    await writeFolder(out, version('old'));
    symlinkSync(out, join(shop, 'link'));
    expect((await failure(writeFolder(join(shop, 'link'), version('v')))).code).toBe('symlink');
    expect(await markOf(out)).toBe('old');
    expect((await failure(writeFolder('.', version('v')))).code).toBe('folder-in-use');
    expect((await failure(writeFolder('..', version('v')))).code).toBe('folder-in-use');
    expect((await failure(writeFolder('/', version('v')))).code).toBe('folder-in-use');
    expect((await fs.readdir(shop)).sort()).toEqual(['link', 'note', 'out', 'photos']);
  });

  test('refuses paths that leave the folder or that some system cannot hold', async () => {
    const bad = [
      '/etc/passwd',
      '../x',
      'a/../../x',
      'a//b',
      '',
      '.',
      'a/./b',
      'a/',
      'C:x',
      'a\\b',
      'a\0b',
      'con',
      'NUL.stl',
      'a./b',
      'b ',
      'a\nb',
      'x'.repeat(300),
      'why?',
      'a/ b',
      'nul .stl',
      'COM².txt',
      'conin$',
      'half \uD83D',
    ];
    for (const path of bad) {
      const error = await failure(writeFolder(out, [...version('v'), { path, bytes: 'x' }]));
      expect([path, error.code]).toEqual([path, 'path-trick']);
    }
    expect(checkOutputPath('rope-gear/gated.stl')).toEqual(['rope-gear', 'gated.stl']);
    expect(checkOutputPath('Bügel 2/.note')).toEqual(['Bügel 2', '.note']);
    for (const clash of [
      ['a', 'A'],
      ['a/b', 'a'],
      ['a', 'a/b'],
      ['x/e\u0301', 'x/\u00e9'],
      ['Gear/p', 'gear/P'],
      ['stra\u00DFe', 'STRASSE'],
      ['\u017Fprue', 'sprue'],
    ]) {
      const files = clash.map((path) => ({ path, bytes: '' }));
      expect((await failure(writeFolder(out, files))).code).toBe('duplicate-path');
    }
    expect(await fs.readdir(shop)).toEqual([]);
  });

  test('three writers of one folder at once: all end, one of them is what stands there, nothing is left', async () => {
    for (let round = 0; round < 20; round++) {
      const place = join(shop, `r${round}`, 'out');
      if (round % 2 === 0) await writeFolder(place, version('old'));
      await Promise.all(['a', 'b', 'c'].map((mark) => writeFolder(place, version(mark, 2))));
      expect(['a', 'b', 'c']).toContain(await markOf(place));
      expect(await fs.readdir(join(place, '..'))).toEqual(['out']);
    }
  });
});

describe('when another run writes the same folder', () => {
  /** The other run's whole work is done just before the k-th call of this one. */
  const withOther = (k: number, other: () => Promise<unknown>): FolderSystem => {
    let at = 0;
    return failing(async () => {
      if (at++ === k) await other();
    });
  };

  test.each([
    ['where an old folder stands', true],
    ['where none stands', false],
  ])(
    'between any two calls, %s: both end well, one of them stands whole, nothing is left',
    async (_, old) => {
      let calls = 0;
      const count = failing(() => void calls++);
      if (old) await writeFolder(out, version('old', 2));
      await writeFolder(out, version('mine', 2), { system: count });
      for (let k = 0; k < calls; k++) {
        const place = join(shop, `k${k}`, 'out');
        if (old) await writeFolder(place, version('old', 2));
        const system = withOther(k, () => writeFolder(place, version('theirs', 2)));
        await writeFolder(place, version('mine', 2), { system });
        expect(['mine', 'theirs']).toContain(await markOf(place));
        expect(await fs.readdir(join(shop, `k${k}`))).toEqual(['out']);
      }
    },
  );

  test('a run that fails, and takes away the parent it made, between any two calls', async () => {
    const broken = function* (): Generator<OutputFile> {
      yield { path: 'a', bytes: 'a' };
      throw new RangeError('no such gear');
    };
    let calls = 0;
    await writeFolder(join(shop, 'p', 'out'), version('mine', 2), { system: failing(() => void calls++) });
    for (let k = 0; k < calls; k++) {
      const place = join(shop, `p${k}`, 'out');
      const system = withOther(k, () => writeFolder(place, broken()).catch(() => undefined));
      await writeFolder(place, version('mine', 2), { system });
      expect(await markOf(place)).toBe('mine');
      expect(await fs.readdir(join(shop, `p${k}`))).toEqual(['out']);
    }
  });

  test('a third that puts back what this one moved aside, while a second has moved this one’s: both stay', async () => {
    await writeFolder(out, version('old', 2));
    const second = join(shop, 'second');
    let renames = 0;
    const system = failing(async (call) => {
      if (call === 'rename') renames++;
      // This one's new folder stands, and is not yet flushed.
      else if (renames === 2 && !(await fs.readdir(shop)).includes('second')) {
        const aside = (await fs.readdir(shop)).find((name) => name.startsWith('.out.aside-'));
        await fs.rename(out, second);
        await fs.rename(join(shop, aside as string), out);
      }
    });
    await writeFolder(out, version('mine', 2), { system });
    expect([await markOf(out), await markOf(second)]).toEqual(['old', 'mine']);
    expect((await fs.readdir(shop)).sort()).toEqual(['out', 'second']);
  });

  test('one that never lets go is told as such, and stands whole', async () => {
    await writeFolder(out, version('old', 2));
    const system = failing(async (call) => {
      if (call === 'rename') await writeFolder(out, version('theirs', 2));
    });
    expect(await failure(writeFolder(out, version('mine', 2), { system }))).toMatchObject({
      code: 'busy',
      message: expect.stringContaining('Another run is writing'),
    });
    expect(await markOf(out)).toBe('theirs');
    expect(await fs.readdir(shop)).toEqual(['out']);
  });

  test('another program’s folder that takes the place meanwhile is refused and untouched', async () => {
    let calls = 0;
    await writeFolder(join(shop, 'q', 'out'), version('mine', 2), { system: failing(() => void calls++) });
    for (let k = 0; k < calls; k++) {
      const place = join(shop, `q${k}`, 'out');
      const photo = join(place, 'boat.jpg');
      let isTheirs = false;
      const system = withOther(k, async () => {
        isTheirs = (await fs.mkdir(place, { recursive: true })) !== undefined;
        if (isTheirs) await fs.writeFile(photo, 'x');
      });
      const ended = await writeFolder(place, version('mine', 2), { system }).then(
        () => 'done',
        (error: FolderError) => error.code,
      );
      expect([k, ended]).toEqual([k, isTheirs ? 'foreign-folder' : 'done']);
      if (isTheirs) expect(await fs.readFile(photo, 'utf8')).toBe('x');
      else expect(await markOf(place)).toBe('mine');
      expect(await fs.readdir(join(shop, `q${k}`))).toEqual(['out']);
    }
  });
});

describe('when the disk says no', () => {
  const cases = [
    ['ENOSPC', 'disk-full', /disk is full/],
    ['EDQUOT', 'disk-full', /disk is full/],
    ['EROFS', 'read-only', /read-only/],
    ['EACCES', 'no-permission', /not permitted/],
    ['ENAMETOOLONG', 'name-too-long', /too long/],
    ['EIO', 'write-failed', /EIO/],
  ] as const;
  const paces = { 'at once': (files: readonly OutputFile[]) => files, slowly } as const;
  for (const [code, wanted, words, pace] of cases.flatMap((c) =>
    (['at once', 'slowly'] as const).map((p) => [...c, p] as const),
  )) {
    test(`${code}, files made ${pace}: a clear error, the old folder untouched, nothing left`, async () => {
      await writeFolder(out, version('old'));
      let writes = 0;
      const system = failing((call) => {
        if (call === 'file.writeFile' && ++writes === 7) throw systemError(code);
      });
      const error = await failure(writeFolder(out, paces[pace](version('new')), { system }));
      expect(error.code).toBe(wanted);
      expect(error.message).toMatch(words);
      expect(error.remedy.length).toBeGreaterThan(10);
      expect(await markOf(out)).toBe('old');
      expect(await fs.readdir(shop)).toEqual(['out']);
    });
  }

  test('a failure of any one call leaves the old folder or the new, whole', async () => {
    let calls = 0;
    await writeFolder(out, version('old', 3));
    await writeFolder(out, version('new', 3), { system: failing(() => void calls++) });
    expect(calls).toBeGreaterThan(30);
    for (let k = 0; k < calls; k++) {
      const place = join(shop, `k${k}`, 'out');
      await writeFolder(place, version('old', 3));
      let at = 0;
      const system = failing(() => {
        if (at++ === k) throw systemError('EIO');
      });
      const ended = await writeFolder(place, version('new', 3), { system }).then(
        () => 'new',
        () => 'old or new',
      );
      expect(ended).toContain(await markOf(place));
    }
  });

  test.skipIf(!mayMount)(`a real full disk, and a real read-only one${mountNote}`, async () => {
    const disk = join(shop, 'disk');
    await withDisk(disk, '512k', async () => {
      const place = join(disk, 'out');
      await writeFolder(place, version('old', 4));
      const large = { path: 'large.stl', bytes: new Uint8Array(1 << 20) };
      const error = await failure(writeFolder(place, [...version('new', 4), large]));
      expect(error.code).toBe('disk-full');
      expect(error.message).toContain('large.stl');
      expect(await markOf(place)).toBe('old');
      expect(await fs.readdir(disk)).toEqual(['out']);
      await writeFolder(place, version('new', 4));
      expect(makeReadOnly(disk)).toBe(true);
      for (const other of [place, join(disk, 'other'), join(disk, 'a', 'b')]) {
        expect((await failure(checkFolder(other))).code).toBe('read-only');
        expect((await failure(writeFolder(other, version('third', 4)))).code).toBe('read-only');
      }
      expect(await markOf(place)).toBe('new');
    });
  });
});

describe('when the run is killed', () => {
  test('stopped before any one call, the old folder or the new is whole, or put back by recoverFolder', async () => {
    let calls = 0;
    await writeFolder(out, version('old', 3));
    await writeFolder(out, version('new', 3), { system: failing(() => void calls++) });
    let missing = 0;
    for (let k = 0; k < calls; k++) {
      const place = join(shop, `k${k}`, 'out');
      await writeFolder(place, version('old', 3));
      let at = 0;
      // From the k-th call on nothing reaches the disk any more, not even the clearing up: as if killed there.
      const system = failing(() => {
        if (at++ >= k) throw new Error('killed');
      });
      await writeFolder(place, version('new', 3), { system }).catch(() => undefined);
      const there = await fs.lstat(place).then(
        () => true,
        () => false,
      );
      if (!there) missing++;
      expect(await recoverFolder(place)).toBe(!there);
      expect(['old', 'new']).toContain(await markOf(place));
      if (!there) expect(await markOf(place)).toBe('old');
      await writeFolder(place, version('third', 3));
      expect(await markOf(place)).toBe('third');
    }
    // Exactly one point in the whole run has the folder missing: between the two renames.
    expect(missing).toBe(1);
  });

  test('an old aside that is out of date is not put over the folder that is there', async () => {
    await writeFolder(out, version('new'));
    const aside = join(shop, '.out.aside-00000000-1-00000000');
    await writeFolder(aside, version('old'));
    expect(await recoverFolder(out)).toBe(false);
    expect(await markOf(out)).toBe('new');
  });

  test("other folders' names are left alone", async () => {
    for (const name of [
      '.out.partial-mine',
      '.out.aside',
      '.outer.partial-00000000-1-00000000',
      'out.partial',
    ]) {
      await fs.mkdir(join(shop, name));
    }
    await writeFolder(out, version('new'));
    await recoverFolder(out);
    expect((await fs.readdir(shop)).length).toBe(5);
  });

  test('kill -9 at 48 random moments: the old or the new folder is whole, leftovers are cleared', async () => {
    const built = join(root, 'built');
    // Plain JavaScript for a child process of its own; types are checked elsewhere.
    execFileSync(
      join('node_modules', '.bin', 'tsc'),
      [
        'core/files/folder.ts',
        '--ignoreConfig',
        '--outDir',
        built,
        '--module',
        'nodenext',
        '--target',
        'es2022',
        '--types',
        'node',
        '--skipLibCheck',
        '--noCheck',
      ],
      { stdio: 'pipe' },
    );
    await fs.writeFile(join(built, 'package.json'), '{"type":"module"}');
    await fs.writeFile(
      join(built, 'child.js'),
      `import { writeFolder } from './folder.js';
       const version = ${version.toString()};
       for (let i = 0; ; i++) {
         process.stdout.write('.');
         await writeFolder(process.argv[2], version('run-' + process.pid + '-' + i, 8));
       }`,
    );
    const kinds = { whole: 0, putBack: 0, leftovers: 0 };
    const marks = new Set<string>();
    let seed = 20240501;
    const random = (): number => {
      seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
      return seed / 2 ** 32;
    };
    const place = join(shop, 'killed', 'out');
    await writeFolder(place, version('first', 8));
    const start = performance.now();
    await writeFolder(place, version('second', 8));
    const usual = performance.now() - start;
    for (let k = 0; k < 48; k++) {
      const child = spawn(process.execPath, [join(built, 'child.js'), place], {
        stdio: ['ignore', 'pipe', 'inherit'],
      });
      const ended = new Promise((done) => child.on('exit', done));
      // Into its first, second or third run, anywhere from the run's start to a little past its usual end.
      const runs = 1 + Math.floor(random() * 3);
      for (let begun = 0; begun < runs; ) {
        begun += await new Promise<number>((got) => child.stdout.once('data', (d: Buffer) => got(d.length)));
      }
      await new Promise((done) => setTimeout(done, random() * usual * 1.2));
      child.kill('SIGKILL');
      await ended;
      expect(child.signalCode).toBe('SIGKILL');
      if ((await fs.readdir(join(shop, 'killed'))).some((name) => name !== 'out')) kinds.leftovers++;
      if (await recoverFolder(place)) kinds.putBack++;
      else kinds.whole++;
      marks.add(await markOf(place));
      expect(await fs.readdir(join(shop, 'killed'))).toEqual(['out']);
    }
    console.log(`kill -9: ${JSON.stringify(kinds)}, ${marks.size} different versions found`);
    expect(kinds.whole + kinds.putBack).toBe(48);
    // The kills did fall into the work, and runs did get through.
    expect(kinds.leftovers).toBeGreaterThan(10);
    expect(marks.size).toBeGreaterThan(10);
  });
});

const folderWriter = [
  'folder',
  'folder-error',
  'folder-exchange',
  'folder-siblings',
  'folder-system',
  'output-file',
  'output-path',
  'replaceable-folder',
];

test('what the folder writer needs is nothing but Node', () => {
  for (const file of folderWriter) {
    const imports = [...readFileSync(`core/files/${file}.ts`, 'utf8').matchAll(/from '([^']+)'/g)].map(
      (m) => m[1]!,
    );
    for (const name of imports) expect(name).toMatch(/^(node:|\.\/)/);
  }
});
