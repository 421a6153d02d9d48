import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { appendFileSync, mkdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { build } from 'rolldown';
import { beforeAll, describe, expect, test } from 'vitest';
import { FolderError } from '../../../core/files/folder-error.js';
import { appendRecords, readLogText } from '../../../core/files/log-file.js';
import { formatLine, parseLog } from '../../../core/log/line.js';
import { temporaryFolder } from '../../cli/helpers/folders.js';
import { pour } from '../../helpers/pour.js';
import { seeded } from '../../helpers/seeded.js';

const folder = temporaryFolder();
const writer = join(folder, 'log-writer.mjs');

beforeAll(async () => {
  symlinkSync(resolve('node_modules'), join(folder, 'node_modules'), 'junction');
  await build({
    input: resolve(import.meta.dirname, '../../helpers/log-writer.ts'),
    platform: 'node',
    external: (id) => !/^(\.|\/|[A-Za-z]:)/.test(id),
    output: { file: writer, format: 'esm' },
  });
});

const read = (path: string) => parseLog(readFileSync(path, 'utf8'));
const ids = (path: string): readonly string[] => read(path).records.map((r) => r.id);

describe('adding to a log', () => {
  test('makes the file, then adds line by line', async () => {
    const path = join(folder, 'new.jsonl');
    await appendRecords(path, [pour({ id: 'test-0001' })]);
    await appendRecords(path, []);
    await appendRecords(path, [pour({ id: 'test-0002' }), pour({ id: 'test-0003' })]);
    expect(readFileSync(path, 'utf8')).toBe(
      ['test-0001', 'test-0002', 'test-0003'].map((id) => `${formatLine(pour({ id }))}\n`).join(''),
    );
    expect(await readLogText(path)).toBe(readFileSync(path, 'utf8'));
    expect(await readLogText(join(folder, 'none.jsonl'))).toBeUndefined();
  });

  test('after a line torn at any byte, the next starts afresh and no other is lost', async () => {
    const [first, torn] = ['test-0001', 'test-0002'].map((id) =>
      Buffer.from(`${formatLine(pour({ id, notes: 'µ\n' }))}\n`),
    ) as [Buffer, Buffer];
    for (let end = 0; end <= torn.length; end += end < 20 || end > torn.length - 5 ? 1 : 7) {
      const path = join(folder, `torn-${end}.jsonl`);
      writeFileSync(path, Buffer.concat([first, torn.subarray(0, end)]));
      await appendRecords(path, [pour({ id: 'test-0003' })]);
      const { records, problems } = read(path);
      // A line that lacks nothing but its line break is whole.
      const whole = end >= torn.length - 1;
      expect(records.map((r) => r.id)).toEqual(['test-0001', ...(whole ? ['test-0002'] : []), 'test-0003']);
      expect(problems.map((p) => [p.line, p.code])).toEqual(whole || end === 0 ? [] : [[2, 'torn']]);
    }
  });

  test('ten thousand records by two writers at once, in batches of 1 to 200', async () => {
    const path = join(folder, 'many.jsonl');
    const random = seeded(10);
    const write = async (name: string): Promise<void> => {
      for (let i = 0; i < 5000; ) {
        const batch = Math.min(5000 - i, 1 + Math.floor(200 * random() ** 2));
        const records = Array.from({ length: batch }, (_, k) =>
          pour({ id: `${name}-${String(i + k).padStart(6, '0')}`, notes: 'x'.repeat((i + k) % 300) }),
        );
        await appendRecords(path, records);
        i += batch;
      }
    };
    await Promise.all([write('first'), write('second')]);
    const { records, problems } = read(path);
    expect(problems).toEqual([]);
    expect(records).toHaveLength(10_000);
    for (const name of ['first', 'second'])
      expect(records.map((r) => r.id).filter((id) => id.startsWith(name))).toEqual(
        Array.from({ length: 5000 }, (_, i) => `${name}-${String(i).padStart(6, '0')}`),
      );
  });

  test('a folder, a missing folder, a device: one error that says what would be right', async () => {
    mkdirSync(join(folder, 'sub'));
    for (const path of [join(folder, 'sub'), join(folder, 'no/log.jsonl'), '/dev/null']) {
      const failed = await appendRecords(path, [pour()]).catch((error: unknown) => error);
      expect(failed).toBeInstanceOf(FolderError);
      expect((failed as FolderError).message).toContain(path.includes('no/') ? 'no folder' : path);
    }
  });
});

interface Writer {
  readonly process: ChildProcess;
  /** What it said so far. */
  readonly told: () => readonly string[];
  readonly ended: Promise<readonly string[]>;
}

/** Starts a writer; `ended` gives what it said was on the disk. */
function start(path: string, name: string, most = 1e6): Writer {
  const child = spawn(process.execPath, [writer, path, name, String(most)], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  let said = '';
  child.stdout.on('data', (text: Buffer) => {
    said += text;
  });
  const told = (): readonly string[] => said.split('\n').slice(0, -1);
  const ended = new Promise<readonly string[]>((done) => {
    child.on('close', () => done(told()));
  });
  return { process: child, told, ended };
}

const wait = (milliseconds: number) => new Promise((done) => setTimeout(done, milliseconds));

describe('writers that are killed', () => {
  const seed = 20261126;
  const rounds = 16;
  test(`two at once, killed at random moments, torn lines thrown among them: nothing lost, nothing torn; seed ${seed}`, async () => {
    const path = join(folder, 'killed.jsonl');
    const random = seeded(seed);
    const acknowledged: string[] = [];
    let fragments = 0;
    for (let round = 0; round < rounds; round++) {
      const writers = [start(path, `left-${round}`), start(path, `right-${round}`)];
      await Promise.all(
        writers.map(async (w) => {
          const least = 4 + Math.floor(8 * random());
          while (w.told().length < least) await wait(1);
          await wait(60 * random());
          // As a third writer whose write is cut short would leave it.
          if (random() < 0.7) {
            const line = formatLine(pour({ id: `torn-${fragments++}-00000` }));
            appendFileSync(path, line.slice(0, 1 + Math.floor((line.length - 1) * random())));
          }
          await wait(60 * random());
          w.process.kill('SIGKILL');
        }),
      );
      for (const w of writers) acknowledged.push(...(await w.ended));
    }
    await appendRecords(path, [pour({ id: 'after-all-of-it' })]);
    const { records, problems } = read(path);
    const found = new Set(records.map((r) => r.id));
    expect(acknowledged.length).toBeGreaterThan(100);
    expect(acknowledged.filter((id) => !found.has(id))).toEqual([]);
    expect(found.has('after-all-of-it')).toBe(true);
    // Each round leaves at most its two unacknowledged records beside the acknowledged ones.
    expect(records.length).toBeLessThanOrEqual(acknowledged.length + 2 * rounds + 1);
    // Only lines of killed writers and the thrown ones, with what hung on them, are unreadable.
    expect(fragments).toBeGreaterThan(10);
    expect(problems.length).toBeLessThanOrEqual(2 * fragments + 2 * rounds);
  });

  test('a disk with no room for the whole line: told, and the next add starts afresh', async () => {
    const path = join(folder, 'full.jsonl');
    // A limit of 4 KiB on the size of files stands in for a full disk: the write is cut short there.
    const limited = spawnSync(
      'bash',
      ['-c', `ulimit -f 4; exec "$@"`, '-', process.execPath, writer, path, 'limit', '20'],
      {
        encoding: 'utf8',
      },
    );
    expect(limited.status).not.toBe(0);
    expect(limited.stderr).toContain('The disk is full');
    const acknowledged = limited.stdout.split('\n').slice(0, -1);
    expect(acknowledged.length).toBeGreaterThan(2);
    expect(ids(path)).toEqual(acknowledged);
    expect(read(path).problems).toHaveLength(1);
    await appendRecords(path, [pour({ id: 'after-room-was-made' })]);
    expect(ids(path)).toEqual([...acknowledged, 'after-room-was-made']);
  });
});
