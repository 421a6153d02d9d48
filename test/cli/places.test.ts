/** Job files that cannot be read and output folders that cannot be written. */
import { execFileSync, spawnSync } from 'node:child_process';
import {
  chmodSync,
  chownSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readlinkSync,
  symlinkSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { ensureBuilt, runBuilt, type Spawned } from './helpers/built.js';
import { listing, temporaryFolder } from './helpers/folders.js';
import { accidents } from './helpers/in-process.js';

beforeAll(ensureBuilt);

const top = temporaryFolder();
const newFolder = (): string => mkdtempSync(join(top, 'place-'));
const isRoot = process.getuid?.() === 0;
const onUnix = process.platform !== 'win32';
/** The user "nobody" of most systems, for whom permissions hold. */
const nobody = 65534;

const complaint = (ran: Spawned, code: 1 | 2, says: readonly string[]): void => {
  expect(ran, ran.err).toMatchObject({ code, out: '', signal: null });
  for (const words of says) expect(ran.err).toContain(words);
  expect(ran.err.trimEnd().split('\n')).toHaveLength(code === 1 ? 2 : 1);
  if (code === 1) expect(ran.err).toMatch(/\nNothing was written\.\n$/);
  expect(ran.err).not.toMatch(accidents);
};

describe('job files', () => {
  const plate = (cwd: string, file: string, uid?: number): Spawned =>
    runBuilt(['plate', file], { cwd, timeout: 120_000, ...(uid === undefined ? {} : { uid }) });

  test('missing', () => {
    const cwd = newFolder();
    complaint(plate(cwd, 'job.yaml'), 2, ['cannot read job.yaml: there is no such file', 'plate job']);
    complaint(plate(cwd, 'no/such/job.yaml'), 2, ['there is no such file']);
    expect(readdirSync(cwd)).toEqual([]);
  });

  test('a folder', () => {
    const cwd = newFolder();
    mkdirSync(join(cwd, 'jobs'));
    complaint(plate(cwd, 'jobs'), 2, ['jobs is a folder']);
  });

  test('inside a file', () => {
    const cwd = newFolder();
    writeFileSync(join(cwd, 'job.yaml'), 'job: a\n');
    complaint(plate(cwd, 'job.yaml/job.yaml'), 2, ['there is no such file']);
  });

  test.skipIf(!onUnix)('not to be read', () => {
    const cwd = newFolder();
    chmodSync(top, 0o755);
    chmodSync(cwd, 0o755);
    writeFileSync(join(cwd, 'job.yaml'), 'job: a\n', { mode: 0o000 });
    complaint(plate(cwd, 'job.yaml', isRoot ? nobody : undefined), 2, ['it may not be read']);
  });

  test.skipIf(!onUnix)('an endless device', () => {
    complaint(plate(newFolder(), '/dev/zero'), 2, ['/dev/zero is not a file']);
  });

  test.skipIf(!onUnix)('a pipe that nobody writes to', () => {
    const cwd = newFolder();
    execFileSync('mkfifo', [join(cwd, 'job.yaml')]);
    complaint(plate(cwd, 'job.yaml'), 2, ['job.yaml is not a file']);
  });

  test.skipIf(!onUnix)('links in a circle', () => {
    const cwd = newFolder();
    symlinkSync('two.yaml', join(cwd, 'one.yaml'));
    symlinkSync('one.yaml', join(cwd, 'two.yaml'));
    complaint(plate(cwd, 'one.yaml'), 2, ['its links lead in a circle']);
  });

  test('of ten gigabytes, which is not read', () => {
    const cwd = newFolder();
    writeFileSync(join(cwd, 'job.yaml'), 'job: a\n');
    truncateSync(join(cwd, 'job.yaml'), 10 * 1024 ** 3);
    complaint(plate(cwd, 'job.yaml'), 2, ['job.yaml:1:1 the file is 10240.0 MB', 'at most 4 MB']);
  });

  test('with a name that is too long, or with control characters', () => {
    complaint(plate(newFolder(), `${'a'.repeat(300)}.yaml`), 2, ['the name is too long']);
    complaint(plate(newFolder(), 'a\u001b[31m.yaml'), 2, ['cannot read a?[31m.yaml']);
  });
});

describe('output folders', () => {
  const make = (cwd: string, out: string, uid?: number): Spawned =>
    runBuilt(
      [
        'make',
        'spur-gear',
        '--teeth',
        '17',
        '--face-width',
        '8',
        '--bore',
        '6',
        '--tolerance',
        '0.1',
        '--freeze',
        'off',
        '--quiet',
        '--out',
        out,
      ],
      { cwd, ...(uid === undefined ? {} : { uid }) },
    );

  test('with files of somebody else', () => {
    const cwd = newFolder();
    mkdirSync(join(cwd, 'letters'));
    writeFileSync(join(cwd, 'letters/to-the-harbour-master.txt'), 'Dear sir');
    const before = listing(cwd);
    complaint(make(cwd, 'letters'), 1, ['letters']);
    expect(listing(cwd)).toEqual(before);
  });

  test('with a summary.json that is not of this program', () => {
    const cwd = newFolder();
    mkdirSync(join(cwd, 'other'));
    writeFileSync(join(cwd, 'other/summary.json'), '{"name": "other"}');
    const before = listing(cwd);
    complaint(make(cwd, 'other'), 1, ['other']);
    expect(listing(cwd)).toEqual(before);
  });

  test('an empty one is used', () => {
    const cwd = newFolder();
    mkdirSync(join(cwd, 'empty'));
    expect(make(cwd, 'empty')).toMatchObject({ code: 0, out: '', err: '' });
    expect(readdirSync(join(cwd, 'empty'))).toContain('summary.json');
    expect(readdirSync(cwd)).toEqual(['empty']);
  });

  test('a file in its place, or above it', () => {
    const cwd = newFolder();
    writeFileSync(join(cwd, 'file'), 'words');
    complaint(make(cwd, 'file'), 1, ['is a file']);
    complaint(make(cwd, 'file/out'), 1, ['file']);
    expect(readdirSync(cwd)).toEqual(['file']);
  });

  test.skipIf(!onUnix)('a link in its place', () => {
    const cwd = newFolder();
    mkdirSync(join(cwd, 'elsewhere'));
    symlinkSync('elsewhere', join(cwd, 'out'));
    complaint(make(cwd, 'out'), 1, ['link']);
    expect(readlinkSync(join(cwd, 'out'))).toBe('elsewhere');
    expect(readdirSync(join(cwd, 'elsewhere'))).toEqual([]);
  });

  test.each(['.', '/'])('the folder in use or the root: %s', (out) => {
    const cwd = newFolder();
    complaint(make(cwd, out), 1, []);
    expect(readdirSync(cwd)).toEqual([]);
  });

  test.skipIf(!onUnix)('whose parent is read-only', () => {
    const cwd = newFolder();
    chmodSync(top, 0o755);
    mkdirSync(join(cwd, 'shelf'));
    if (isRoot) chownSync(join(cwd, 'shelf'), nobody, nobody);
    chmodSync(cwd, 0o755);
    chmodSync(join(cwd, 'shelf'), 0o555);
    const uid = isRoot ? nobody : undefined;
    complaint(make(cwd, 'shelf/out', uid), 1, ['is not permitted', 'permissions']);
    complaint(make(cwd, 'shelf/deep/er/out', uid), 1, ['is not permitted']);
    expect(readdirSync(join(cwd, 'shelf'))).toEqual([]);
    chmodSync(join(cwd, 'shelf'), 0o755);
  });

  test('a name or path that is too long', () => {
    const cwd = newFolder();
    complaint(make(cwd, 'o'.repeat(300)), 1, ['too long']);
    complaint(make(cwd, Array(60).fill('o'.repeat(100)).join('/')), 1, ['too long']);
    expect(readdirSync(cwd)).toEqual([]);
  });

  /** A disk of that many bytes at a new folder, or the reason why there is none. */
  function tinyDisk(bytes: number): { path: string; end: () => void } | string {
    if (process.platform !== 'linux') return 'needs Linux';
    if (!isRoot) return 'needs the right to mount';
    const path = newFolder();
    const mounted = spawnSync('mount', ['-t', 'tmpfs', '-o', `size=${bytes}`, 'tmpfs', path], {
      encoding: 'utf8',
    });
    if (mounted.status !== 0) return `cannot mount: ${mounted.stderr?.trim() || mounted.error?.message}`;
    return { path, end: () => void spawnSync('umount', [path]) };
  }

  test('on a disk that fills up: the old output stays', ({ skip }) => {
    const disk = tinyDisk(1024 * 1024);
    if (typeof disk === 'string') return skip(disk);
    try {
      expect(make(disk.path, 'out').code).toBe(0);
      const before = listing(disk.path);
      writeFileSync(join(disk.path, 'ballast'), Buffer.alloc(200 * 1024));
      complaint(make(disk.path, 'out'), 1, ['The disk is full', 'the old output is untouched']);
      expect(listing(disk.path).filter((l) => !l.startsWith('ballast'))).toEqual(before);
      expect(readdirSync(disk.path)).toEqual(['ballast', 'out']);
    } finally {
      disk.end();
    }
  });

  test('on a disk that is full from the start', ({ skip }) => {
    const disk = tinyDisk(64 * 1024);
    if (typeof disk === 'string') return skip(disk);
    try {
      complaint(make(disk.path, 'deep/er/out'), 1, ['The disk is full']);
      expect(existsSync(join(disk.path, 'deep'))).toBe(false);
    } finally {
      disk.end();
    }
  });
});
