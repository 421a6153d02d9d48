/** Threads that are ended while they start, as by Ctrl-C: the program lives on, so that it can clear up. */
import { spawnSync } from 'node:child_process';
import { dirname, join } from 'node:path';
import { beforeAll, expect, test } from 'vitest';
import { builtMain, ensureBuilt } from '../cli/helpers/built.js';
import { seeded } from '../helpers/seeded.js';

beforeAll(ensureBuilt);

const seed = 20_261_126;

test('ended at any moment of their start, they do not take the process with them', () => {
  const helper = join(import.meta.dirname, 'helpers/ended-threads.js');
  const thread = join(dirname(builtMain), 'crew/thread.cjs');
  const moments = Array.from({ length: 150 }, seeded(seed));
  const ended = spawnSync(process.execPath, [helper, thread, JSON.stringify(moments)], { encoding: 'utf8' });
  expect({ code: ended.status, signal: ended.signal, said: ended.stderr }).toEqual({
    code: 0,
    signal: null,
    said: '',
  });
  expect(Number(ended.stdout)).toBeGreaterThan(20);
}, 1_800_000);
