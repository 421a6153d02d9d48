import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { expect, test } from 'vitest';

const finder = join(import.meta.dirname, 'ensure-chromium.js');
const run = (told: string) =>
  spawnSync(process.execPath, [finder], {
    encoding: 'utf8',
    env: { ...process.env, PATTERNWRIGHT_CHROMIUM: told },
  });

test('what the environment names is taken, whatever else there is', () => {
  expect(run(process.execPath)).toMatchObject({ status: 0, stdout: `${process.execPath}\n`, stderr: '' });
});

test('a path that is no program is told, and nothing is installed in its place', () => {
  const { status, stdout, stderr } = run('/nowhere/chromium');
  expect({ status, stdout }).toEqual({ status: 1, stdout: '' });
  expect(stderr).toBe(
    'PATTERNWRIGHT_CHROMIUM is /nowhere/chromium: that is no program. Give the path of Chromium’s.\n',
  );
});
