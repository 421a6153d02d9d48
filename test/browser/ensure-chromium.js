/**
 * A step before the tests: prints the path of the Chromium that the browser tests drive, and installs Debian's where
 * there is none and it may. With `--find` it installs nothing.
 */
import { spawnSync } from 'node:child_process';
import { accessSync, constants } from 'node:fs';
import { delimiter, join } from 'node:path';

const names = ['chromium', 'chromium-browser'];

function isProgram(path) {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

function onPath(name) {
  const folders = (process.env.PATH ?? '').split(delimiter).filter((folder) => folder !== '');
  return folders.map((folder) => join(folder, name)).find(isProgram);
}

/** What the environment names stands alone: a wrong path is told, not passed over. */
function find() {
  const told = process.env.PATTERNWRIGHT_CHROMIUM;
  if (told) return isProgram(told) ? told : undefined;
  return ['/usr/bin/chromium', ...names.map(onPath)].find((path) => path !== undefined && isProgram(path));
}

function install() {
  const mayInstall = process.getuid?.() === 0 && onPath('apt-get') && !process.env.PATTERNWRIGHT_CHROMIUM;
  if (!mayInstall) return;
  process.stderr.write('Chromium for the browser tests is not there; installing it with apt-get.\n');
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  // What it says goes to standard error: standard output is the path's.
  for (const argv of [
    ['update', '-q'],
    ['install', '-y', '-q', '--no-install-recommends', 'chromium', 'fonts-dejavu-core'],
  ])
    spawnSync('apt-get', argv, { env, stdio: ['ignore', process.stderr, process.stderr] });
}

let path = find();
if (path === undefined && !process.argv.includes('--find')) {
  install();
  path = find();
}
if (path === undefined) {
  const told = process.env.PATTERNWRIGHT_CHROMIUM;
  process.stderr.write(
    told
      ? `PATTERNWRIGHT_CHROMIUM is ${told}: that is no program. Give the path of Chromium’s.\n`
      : 'The browser tests need Chromium. Install it (on Debian: apt-get install chromium) or give the path of one in PATTERNWRIGHT_CHROMIUM.\n',
  );
  process.exitCode = 1;
} else process.stdout.write(`${path}\n`);
