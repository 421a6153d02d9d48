/** What is loaded before it is needed: help must not wait for the kernel. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { beforeAll, expect, test } from 'vitest';
import { parts } from '../../generators/index.js';
import { ensureBuilt, runBuilt } from './helpers/built.js';
import { temporaryFolder } from './helpers/folders.js';

const cwd = temporaryFolder();
const register = join(cwd, 'register.mjs');

beforeAll(() => {
  ensureBuilt();
  writeFileSync(
    join(cwd, 'hooks.mjs'),
    `import { appendFileSync } from 'node:fs';
export async function load(url, context, next) {
  appendFileSync(process.env.LOADED, url + '\\n');
  return next(url, context);
}`,
  );
  writeFileSync(
    register,
    `import { register } from 'node:module';\nregister('./hooks.mjs', import.meta.url);\n`,
  );
});

/** The modules that the build joined into a file. */
const joinedIn = (file: string): readonly string[] =>
  file.startsWith('file:') && file.includes('/dist/cli/')
    ? [...readFileSync(new URL(file), 'utf8').matchAll(/^\/\/ (dist\/\S+\.js)$/gm)].map(
        ([, path]) => path as string,
      )
    : [];

/** The modules that a run loads, as addresses, and those joined into them. */
function loadedBy(...argv: string[]): readonly string[] {
  const log = join(cwd, `${argv.join('_').replace(/[^a-z_-]/g, '')}.log`);
  writeFileSync(log, '');
  const ran = runBuilt(argv, {
    cwd,
    nodeArguments: ['--import', pathToFileURL(register).href],
    env: { LOADED: log },
  });
  expect(ran, ran.err).toMatchObject({ code: 0, err: '' });
  const files = readFileSync(log, 'utf8').trim().split('\n');
  return [...files, ...files.flatMap(joinedIn)];
}

const heavy =
  /manifold-3d|@jscad|core\/solid\/(kernel|engine|index|inspect|modeling)\.js|fast-png|fflate|yaml\/|core\/files\/(stl|three-mf|folder)\.js|core\/report\/(text-summary|traveller|format|render)/;

test('the trace sees what a real run loads', () => {
  const urls = loadedBy('make', 'spur-gear', '--tolerance', '0.2', '--quiet', '--out', 'traced');
  for (const wanted of ['manifold-3d', '@jscad/stl-serializer', 'core/solid/kernel.js', 'yaml/'])
    expect(
      urls.some((url) => url.includes(wanted)),
      wanted,
    ).toBe(true);
});

test.each(
  [
    ['--help'],
    ['--version'],
    ['make', '--help'],
    ['plate', '--help'],
    ['list', 'alloys'],
    ...parts.map((part) => ['make', part.name, '--help']),
  ].map((argv) => [argv.join(' '), argv] as const),
)('%s loads neither kernel nor writers', (_, argv) => {
  const urls = loadedBy(...argv);
  expect(urls.length).toBeGreaterThan(1);
  expect(urls.filter((url) => heavy.test(url))).toEqual([]);
});

test.each([['--help'], ['--version']])('%s loads hardly anything', (word) => {
  expect(loadedBy(word).length).toBeLessThanOrEqual(8);
});

test('speaks one language, whatever the system speaks', () => {
  const argv = ['make', 'spur-gear', '--teeth'];
  const german = runBuilt(argv, { cwd, env: { LANG: 'de_DE.UTF-8', LC_ALL: 'de_DE.UTF-8' } });
  expect(german).toMatchObject({
    code: 2,
    err: '--teeth has no value; give a whole number from 6 to 200\n',
  });
});
