/** Files that come in pieces or are put in place by their maker: all that holds of whole ones holds of them. */
import { spawnSync } from 'node:child_process';
import * as fs from 'node:fs/promises';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { recoverFolder, writeFolder } from '../../../core/files/folder.js';
import { type FolderSystem, nodeFolderSystem } from '../../../core/files/folder-system.js';
import type { OutputFile, WholeFile } from '../../../core/files/output-file.js';
import { mayMount, mountNote, withDisk } from '../../faults/helpers/small-disk.js';
import { failing, failure, freshShops, markOf, systemError, version } from './folder-versions.js';

let shop: string;
let out: string;
freshShops((...fresh) => {
  [shop, out] = fresh;
});

const bytesOf = ({ bytes }: WholeFile): Buffer => Buffer.from(bytes as string);

/** In pieces of some thousand bytes, or of as many as are given. */
function* pieces(file: WholeFile, length = 3000): Generator<Uint8Array> {
  const bytes = bytesOf(file);
  for (let at = 0; at < bytes.length; at += length) yield bytes.subarray(at, at + length);
}
async function* late<T>(values: Iterable<T>): AsyncGenerator<T> {
  for (const value of values) {
    await new Promise(setImmediate);
    yield value;
  }
}

const inPieces = (file: WholeFile): OutputFile => ({ path: file.path, chunks: pieces(file) });
const copied = (file: WholeFile, system: FolderSystem = nodeFolderSystem): OutputFile => ({
  path: file.path,
  async copyFrom(dest) {
    const handle = await system.open(dest, 'wx');
    try {
      for (const piece of pieces(file)) await handle.writeFile(piece);
    } finally {
      await handle.close();
    }
  },
});

/** The same files, one form after the other; copies go through the same disk. */
const mixed = (files: readonly WholeFile[], system?: FolderSystem): OutputFile[] =>
  files.map((file, i) => {
    if (i % 4 === 0) return inPieces(file);
    if (i % 4 === 1) return copied(file, system);
    if (i % 4 === 2) return { path: file.path, chunks: late(pieces(file)) };
    return file;
  });

const untouched = async (): Promise<void> => {
  expect(await markOf(out)).toBe('old');
  expect(await fs.readdir(shop)).toEqual(['out']);
};

describe('files in pieces and copies', () => {
  test('are the same files', async () => {
    await writeFolder(out, mixed(version('old')));
    expect(await markOf(out)).toBe('old');
    await writeFolder(out, mixed(version('new', 5)));
    expect(await markOf(out)).toBe('new');
    expect(await fs.readdir(shop)).toEqual(['out']);
  });

  test('text and bytes in pieces of any size, cut anywhere, come to what they are joined', async () => {
    // Long enough for several writes, of letters of one to four bytes.
    const piece = fc.oneof(
      fc.string({ unit: 'binary', maxLength: 5 }),
      fc.uint8Array({ maxLength: 5 }),
      fc.nat(200_000).map((length) => 'ä€😀o'.repeat(Math.ceil(length / 7)).slice(0, length)),
      fc.nat(200_000).map((length) => new Uint8Array(length).fill(65)),
    );
    await fc.assert(
      fc.asyncProperty(fc.array(piece, { maxLength: 6 }), fc.boolean(), async (chunks, isLate) => {
        await writeFolder(out, [
          { path: 'summary.json', bytes: '{"schemaVersion":1}' },
          { path: 'a', chunks: isLate ? late(chunks) : chunks },
        ]);
        // Runs of text are one text: a letter may be cut between two pieces.
        const runs: (string | Uint8Array)[] = [];
        for (const chunk of chunks) {
          const last = runs.at(-1);
          if (typeof chunk === 'string' && typeof last === 'string') runs[runs.length - 1] = last + chunk;
          else runs.push(chunk);
        }
        const wanted = Buffer.concat(runs.map((run) => Buffer.from(run as string)));
        expect((await fs.readFile(join(out, 'a'))).equals(wanted)).toBe(true);
      }),
      { numRuns: 25 },
    );
  });

  test('a maker may write over what it has handed on', async () => {
    const bytes = new Uint8Array(100_000);
    const reused = function* (): Generator<Uint8Array> {
      for (const length of [10, 100_000, 7, 70_000]) yield bytes.subarray(0, length).fill(length % 251);
    };
    await writeFolder(out, [{ path: 'a', chunks: reused() }]);
    const wanted = [10, 100_000, 7, 70_000].map((length) => Buffer.alloc(length, length % 251));
    expect((await fs.readFile(join(out, 'a'))).equals(Buffer.concat(wanted))).toBe(true);
  });

  test('a maker is not asked for more than the disk takes', async () => {
    let [made, written] = [0, 0];
    const system = failing(async (call) => {
      if (call !== 'file.writeFile') return;
      expect(made - written).toBeLessThanOrEqual(1);
      written++;
      await new Promise((done) => setTimeout(done, 1));
    });
    const large = function* (): Generator<Uint8Array> {
      for (; made < 100; made++) yield new Uint8Array(2 ** 17);
    };
    await writeFolder(out, [{ path: 'a', chunks: large() }], { system });
    expect(written).toBe(100);
    expect((await fs.stat(join(out, 'a'))).size).toBe(100 * 2 ** 17);
  });
});

describe('makers that fail', () => {
  const fault = new RangeError('no such gear');
  const broken: readonly (readonly [string, (file: WholeFile) => OutputFile])[] = [
    [
      'between two pieces',
      (file) => ({
        path: file.path,
        chunks: (function* () {
          yield* pieces(file);
          throw fault;
        })(),
      }),
    ],
    [
      'late',
      (file) => ({
        path: file.path,
        chunks: (async function* () {
          yield* late(pieces(file));
          throw fault;
        })(),
      }),
    ],
    [
      'with a half copy',
      (file) => ({
        path: file.path,
        async copyFrom(dest) {
          await fs.writeFile(dest, 'half');
          throw fault;
        },
      }),
    ],
  ];
  for (const [how, make] of broken) {
    test(`${how}: the error is passed on as it is; the old folder stays, nothing is left`, async () => {
      await writeFolder(out, version('old'));
      for (const at of [0, 5, 13]) {
        const files = () => version('new').map((file, i) => (i === at ? make(file) : file));
        await expect(writeFolder(out, files())).rejects.toBe(fault);
        await expect(writeFolder(join(shop, 'a', 'b'), files())).rejects.toBe(fault);
        await untouched();
      }
    });
  }

  test.skipIf(process.platform === 'win32')('what is no file of its own is refused', async () => {
    await writeFolder(out, version('old'));
    const outside = join(shop, 'out', 'traveller.html');
    const kinds = ['nothing', 'folder', 'link', 'second name', 'pipe'];
    for (const kind of kinds) {
      const copyFrom = async (dest: string): Promise<void> => {
        if (kind === 'folder') await fs.mkdir(dest);
        if (kind === 'link') await fs.symlink(outside, dest);
        if (kind === 'second name') await fs.link(outside, dest);
        if (kind === 'pipe') spawnSync('mkfifo', [dest]);
      };
      const error = await failure(writeFolder(out, [...version('new'), { path: 'a/copy', copyFrom }]));
      expect([kind, error.code]).toEqual([kind, 'write-failed']);
      expect(error.message).toBe(`${join(out, 'a', 'copy')} is not a file of its own.`);
      await untouched();
    }
  });

  test('a maker is told when the disk fails, so that it can let go', async () => {
    let isOpen = false;
    const file = {
      path: 'large',
      chunks: (function* () {
        isOpen = true;
        try {
          for (let i = 0; i < 50; i++) yield new Uint8Array(2 ** 17);
        } finally {
          isOpen = false;
        }
      })(),
    };
    let writes = 0;
    const system = failing((call) => {
      if (call === 'file.writeFile' && ++writes === 7) throw systemError('ENOSPC');
    });
    expect((await failure(writeFolder(out, [file], { system }))).code).toBe('disk-full');
    expect(isOpen).toBe(false);
    expect(await fs.readdir(shop)).toEqual([]);
  });
});

describe('when the disk says no in the middle of a file', () => {
  const half = { code: 'ENOSPC', syscall: 'write' };
  for (const form of ['in pieces', 'copied'] as const) {
    test(`${form}: disk full is told, the old folder stays, nothing is left`, async () => {
      await writeFolder(out, version('old'));
      let writes = 0;
      const system = failing((call) => {
        if (call === 'file.writeFile' && ++writes === 9) throw Object.assign(systemError('ENOSPC'), half);
      });
      const files = version('n'.repeat(20)).map((f) => (form === 'copied' ? copied(f, system) : inPieces(f)));
      expect(await failure(writeFolder(out, files, { system }))).toMatchObject({
        code: 'disk-full',
        message: expect.stringContaining(out),
      });
      await untouched();
    });
  }

  test('a failure of any one call leaves the old folder or the new, whole', async () => {
    let calls = 0;
    const count = failing(() => void calls++);
    await writeFolder(out, version('old', 3));
    await writeFolder(out, mixed(version('new', 3), count), { system: count });
    expect(calls).toBeGreaterThan(30);
    for (let k = 0; k < calls; k++) {
      const place = join(shop, `k${k}`, 'out');
      await writeFolder(place, version('old', 3));
      let at = 0;
      const system = failing(() => {
        if (at++ === k) throw systemError('EIO');
      });
      const ended = await writeFolder(place, mixed(version('new', 3), system), { system }).then(
        () => 'new',
        () => 'old or new',
      );
      expect(ended).toContain(await markOf(place));
    }
  });

  test('stopped before any one call, the old folder or the new is whole, or put back', async () => {
    let calls = 0;
    const count = failing(() => void calls++);
    await writeFolder(out, version('old', 3));
    await writeFolder(out, mixed(version('new', 3), count), { system: count });
    for (let k = 0; k < calls; k++) {
      const place = join(shop, `k${k}`, 'out');
      await writeFolder(place, version('old', 3));
      let at = 0;
      const system = failing(() => {
        if (at++ >= k) throw new Error('killed');
      });
      await writeFolder(place, mixed(version('new', 3), system), { system }).catch(() => undefined);
      await recoverFolder(place);
      expect(['old', 'new']).toContain(await markOf(place));
    }
  });

  test.skipIf(!mayMount)(`a real full disk${mountNote}`, async () => {
    const disk = join(shop, 'disk');
    await withDisk(disk, '512k', async () => {
      const place = join(disk, 'out');
      await writeFolder(place, mixed(version('old', 4)));
      const large = { path: 'large.stl', bytes: new Uint8Array(1 << 20) };
      for (const form of [inPieces, copied]) {
        const error = await failure(writeFolder(place, [...version('new', 4), form(large)]));
        expect(error.code).toBe('disk-full');
        expect(error.message).toContain(join(place, 'large.stl'));
        expect(await markOf(place)).toBe('old');
        expect(await fs.readdir(disk)).toEqual(['out']);
      }
    });
  });
});
