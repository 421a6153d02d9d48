/** Several programs at one store: kept, found, pruned and killed in any order. */
import { execFileSync, spawn } from 'node:child_process';
import { mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { beforeAll, expect, test } from 'vitest';
import { LostPart, openStore, type PartStore } from '../../../cli/store/store.js';
import { temporaryFolder } from '../helpers/folders.js';
import { checkStored, sample } from './helpers.js';

const root = temporaryFolder();
const samples = Array.from({ length: 4 }, (_, i) => sample(i));
/** Of about two of them. */
const limit = 7000;
let n = 0;

type Step = { readonly kind: 'keep' | 'find' | 'prune'; readonly part: number };
const steps = fc.array(
  fc.record<Step>({
    kind: fc.constantFrom('keep', 'keep', 'find', 'find', 'prune'),
    part: fc.nat(samples.length - 1),
  }),
  { minLength: 1, maxLength: 12 },
);

async function take({ kind, part }: Step, store: PartStore): Promise<void> {
  const one = samples[part]!;
  if (kind === 'prune') return store.prune(limit);
  const found =
    kind === 'find' ? await store.find(one.key) : await store.keep(one.key, one.record, one.files);
  await (found && checkStored(found, one))?.catch((error: unknown) => {
    if (!(error instanceof LostPart)) throw error;
  });
}

test('any interleaving of two openings gives right bytes or nothing, and no notes', async () => {
  await fc.assert(
    fc.asyncProperty(steps, steps, fc.scheduler(), async (mine, theirs, scheduler) => {
      const cache = join(root, `case-${n++}`);
      const notes: string[] = [];
      const run = async (list: readonly Step[]): Promise<void> => {
        const store = await openStore(cache, { reserve: 0, note: (text) => notes.push(text) });
        for (const step of list) {
          await scheduler.schedule(Promise.resolve());
          await take(step, store);
        }
      };
      const both = Promise.all([run(mine), run(theirs)]);
      await scheduler.waitFor(both);
      expect(notes).toEqual([]);
      const store = await openStore(cache, { reserve: 0 });
      for (const { key, record, files } of samples.slice(0, 2)) await store.keep(key, record, files);
      await store.prune(limit);
      const names = readdirSync(join(cache, 'parts-1'));
      expect(names.length).toBeGreaterThan(0);
      expect(names.length).toBeLessThanOrEqual(2);
      expect(names.every((name) => name.endsWith('.part'))).toBe(true);
    }),
    { numRuns: 60 },
  );
});

const built = join(root, 'built');
beforeAll(() => {
  mkdirSync(built);
  // Plain JavaScript for processes of their own; types are checked elsewhere.
  execFileSync(
    join('node_modules', '.bin', 'tsc'),
    [
      'test/cli/store/helpers.ts',
      'cli/store/store.ts',
      '--ignoreConfig',
      '--noCheck',
      '--skipLibCheck',
      '--outDir',
      built,
    ].concat(['--rootDir', '.', '--module', 'nodenext', '--target', 'es2022', '--types', 'node']),
    { stdio: 'pipe' },
  );
  writeFileSync(join(built, 'package.json'), '{"type":"module"}');
  writeFileSync(
    join(built, 'child.js'),
    `import { LostPart, openStore } from './cli/store/store.js';
     import { checkStored, sample } from './test/cli/store/helpers.js';
     let seed = Number(process.argv[3]);
     const random = (below) => {
       seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
       return Math.floor((seed / 2 ** 32) * below);
     };
     const samples = [0, 1, 2, 3].map((i) => sample(i, 300_000));
     const store = await openStore(process.argv[2], { reserve: 0, note: (text) => { throw new Error(text); } });
     const told = { right: 0, nothing: 0, lost: 0 };
     for (let i = 0; i < Number(process.argv[4]); i++) {
       const one = samples[random(4)];
       const what = random(10);
       if (what === 0) await store.prune(700_000);
       const found = what < 4 ? await store.keep(one.key, one.record, one.files) : await store.find(one.key);
       if (found === undefined) told.nothing++;
       else await checkStored(found, one).then(() => told.right++, (error) => {
         if (!(error instanceof LostPart)) throw error;
         told.lost++;
       });
       if (i === 0) process.stdout.write('begun\\n');
     }
     process.stdout.write(JSON.stringify(told));`,
  );
});

/** Runs a process of so many steps; `killAfter` ms once it is at work. */
function run(cache: string, seed: number, count: number, killAfter?: number) {
  const child = spawn(process.execPath, [join(built, 'child.js'), cache, String(seed), String(count)]);
  let [said, faults] = ['', ''];
  child.stdout.on('data', (text: Buffer) => {
    said += String(text);
    if (killAfter !== undefined) setTimeout(() => child.kill('SIGKILL'), killAfter);
  });
  child.stderr.on('data', (text: Buffer) => {
    faults += String(text);
  });
  return new Promise<{ readonly code: number | null; readonly said: string; readonly faults: string }>(
    (resolve) => child.on('close', (code) => resolve({ code, said, faults })),
  );
}

test('two processes at work, others killed beside them', async () => {
  const cache = join(root, 'processes');
  const killed = async (): Promise<void> => {
    for (let k = 0; k < 6; k++)
      expect(await run(cache, 900 + k, 1e6, 7 * k)).toMatchObject({ code: null, faults: '' });
  };
  const [one, two] = await Promise.all([run(cache, 1, 250), run(cache, 2, 250), killed()]);
  const told = { right: 0, nothing: 0, lost: 0 };
  for (const { code, said, faults } of [one, two]) {
    expect({ code, faults }).toEqual({ code: 0, faults: '' });
    const each = JSON.parse(said.replace('begun\n', '')) as typeof told;
    for (const kind of ['right', 'nothing', 'lost'] as const) told[kind] += each[kind];
  }
  console.log(`steps of two processes at one store: ${JSON.stringify(told)}`);
  expect(told.right).toBeGreaterThan(100);
  expect(told.nothing).toBeGreaterThan(10);
});
