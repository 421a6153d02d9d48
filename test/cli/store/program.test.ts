import { cpSync, mkdirSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { identify, programIdentity } from '../../../cli/store/program.js';
import { temporaryFolder } from '../helpers/folders.js';

const root = temporaryFolder();

function install(name: string, files: Readonly<Record<string, string>>): string {
  for (const [path, text] of Object.entries(files)) {
    mkdirSync(dirname(join(root, name, path)), { recursive: true });
    writeFileSync(join(root, name, path), text);
  }
  return join(root, name);
}

const manifest = (facts: object): string => JSON.stringify(facts);
const own = 'node_modules/patternwright';
const joined = {
  [`${own}/package.json`]: manifest({
    name: 'patternwright',
    version: '1.0.0',
    dependencies: { 'manifold-3d': '3', 'fast-png': '8' },
  }),
  [`${own}/dist/cli/main.js`]: 'import "./chunk-run.js"',
  [`${own}/dist/cli/chunk-run.js`]: 'run()',
  [`${own}/dist/cli/run.d.ts`]: 'export {}',
  'node_modules/manifold-3d/package.json': manifest({ name: 'manifold-3d', version: '3.5.4' }),
  'node_modules/manifold-3d/manifold.js': 'js',
  'node_modules/manifold-3d/manifold.wasm': 'wasm',
  'node_modules/fast-png/package.json': manifest({
    name: 'fast-png',
    version: '8.0.0',
    dependencies: { fflate: '1' },
  }),
  'node_modules/fast-png/node_modules/fflate/package.json': manifest({ name: 'fflate', version: '1.0.0' }),
  'node_modules/elsewhere/package.json': manifest({ name: 'elsewhere', version: '1.0.0' }),
};

describe('which program this is', () => {
  test('is the same wherever and whenever the same files are installed', async () => {
    const first = install('first', joined);
    const identity = await identify(join(first, own, 'dist/cli'));
    expect(identity).toMatch(/^[0-9a-f]{64}$/);
    const moved = join(root, 'moved');
    cpSync(first, moved, { recursive: true });
    for (const path of Object.keys(joined)) utimesSync(join(moved, path), 1, 1);
    expect(await identify(join(moved, own, 'dist/cli'))).toBe(identity);
  });

  test('changes with any file that runs, though the version stays; and with nothing else', async () => {
    const before = await identify(join(install('before', joined), own, 'dist/cli'));
    const changes: readonly (readonly [path: string, text: string, counts: boolean])[] = [
      [`${own}/dist/cli/chunk-run.js`, 'ruN()', true],
      [`${own}/dist/cli/crew.js`, '', true],
      [`${own}/dist/cli/crew/worker.js`, 'work()', true],
      [`${own}/dist/cli/crew/thread.cjs`, 'load()', true],
      [`${own}/dist/cli/crew/thread.d.cts`, 'export = A', false],
      [`${own}/dist/cli/commands/make.js`, 'left from before the joining', false],
      [`${own}/dist/cli/run.d.ts`, 'export type A = 1', false],
      [`${own}/package.json`, joined[`${own}/package.json`]!.replace('1.0.0', '1.0.1'), true],
      ['node_modules/manifold-3d/manifold.wasm', 'wasn', true],
      ['node_modules/fast-png/package.json', manifest({ name: 'fast-png', version: '8.0.1' }), true],
      [
        'node_modules/fast-png/node_modules/fflate/package.json',
        manifest({ name: 'fflate', version: '1.0.1' }),
        true,
      ],
      ['node_modules/elsewhere/package.json', manifest({ name: 'elsewhere', version: '2.0.0' }), false],
    ];
    for (const [path, text, counts] of changes) {
      const after = await identify(join(install('after', { ...joined, [path]: text }), own, 'dist/cli'));
      expect([path, after !== before]).toEqual([path, counts]);
      rmSync(join(root, 'after'), { recursive: true });
    }
  });

  test('modules that are not joined count in all three rooms', async () => {
    const files = {
      'package.json': manifest({ name: 'patternwright', version: '1.0.0' }),
      'cli/store/program.ts': 'a',
      'core/maths/sine.ts': 'b',
      'generators/pull.ts': 'c',
    };
    const identities = new Set<string>();
    for (const path of [...Object.keys(files), 'unchanged']) {
      const folder = install('loose', {
        ...files,
        ...(path === 'unchanged' ? {} : { [path]: `${files[path as 'package.json']} ` }),
      });
      identities.add(await identify(join(folder, 'cli/store')));
      rmSync(folder, { recursive: true });
    }
    // White space in the manifest says nothing.
    expect(identities.size).toBe(4);
    expect(await programIdentity()).toMatch(/^[0-9a-f]{64}$/);
  });
});
