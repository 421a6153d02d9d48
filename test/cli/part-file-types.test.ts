/** What part files are written with, under strict types: the starter, the tutorial's steps and the contributors' example. */

import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { beforeAll, expect, test } from 'vitest';
import { starterText } from '../../cli/part-file/starter-text.js';
import { builtMain, ensureBuilt, projectFolder } from './helpers/built.js';
import { temporaryFolder } from './helpers/folders.js';

const user = temporaryFolder();

/** Code of a page, by the language and the name that its block has. */
const blocks = (page: string, opening: RegExp): readonly string[] =>
  [...readFileSync(join(projectFolder, page), 'utf8').matchAll(opening)].map(([, text]) => text as string);

const steps = blocks('gallery/own-part/README.md', /^```js spindle-plate\.mjs\n(.*?)^```$/gms);
const [eye = ''] = blocks('DEVELOPERS.md', /^```ts\n(function eyeSolid.*?)^```$/gms);
const eyeNames =
  'type BuildKit, blendFields, fieldSolid, holeCutter, placeTool, plateField, rectangleOutline, ringField, type Solid, type Stock';

const programs: Readonly<Record<string, string>> = {
  'starter.ts': starterText('./starter.ts', 'starter', true),
  ...Object.fromEntries(steps.map((text, i) => [`step-${i + 1}.ts`, text])),
  'eye.ts': `import { ${eyeNames} } from 'patternwright';\nexport ${eye}`,
  'mesh.ts': `import { type JobResult, make, type MeshFile, type RefusedJob, readMeshFile } from 'patternwright';
const file: MeshFile = readMeshFile(new Uint8Array(84), 'a.stl');
export const made: Promise<JobResult | RefusedJob> = make('mesh', { file: 'a.stl' }, { meshFiles: new Map([['a.stl', file]]) });
`,
  'wrong.ts': `import { definePart, length, z } from 'patternwright';
export default definePart({
  name: 'wrong',
  summary: 'Wrong',
  parameters: z.object({ d: length({ min: 1, max: 2, default: 1, help: 'D', group: 'G' }) }),
  // @ts-expect-error The stock has no such class.
  build: (p, stock, { kernel }) => ({ solid: kernel.box([0, 0, 0], [p.d, 1, stock.rind]) }),
});
`,
};

beforeAll(() => {
  ensureBuilt();
  mkdirSync(join(user, 'node_modules'));
  symlinkSync(dirname(dirname(dirname(builtMain))), join(user, 'node_modules/patternwright'), 'junction');
  writeFileSync(join(user, 'package.json'), '{ "type": "module" }');
  for (const [name, text] of Object.entries(programs)) writeFileSync(join(user, name), text);
});

test('the pages have what is compiled here', () => {
  expect(steps).toHaveLength(3);
  expect(eye).toContain('blendFields');
});

test.each(['NodeNext', 'Bundler'])('hold, resolved as %s', (moduleResolution) => {
  const compilerOptions = {
    ...{ strict: true, noEmit: true, target: 'ES2022', moduleResolution, preserveSymlinks: true },
    ...{ module: moduleResolution === 'NodeNext' ? 'NodeNext' : 'ESNext', noUncheckedIndexedAccess: true },
    ...{ exactOptionalPropertyTypes: true, lib: ['ES2023', 'DOM'], types: [], skipLibCheck: true },
  };
  const config = join(user, `tsconfig-${moduleResolution}.json`);
  writeFileSync(config, JSON.stringify({ compilerOptions, files: Object.keys(programs) }));
  const tsc = join(projectFolder, 'node_modules/typescript/bin/tsc');
  expect(spawnSync(process.execPath, [tsc, '-p', config], { cwd: user, encoding: 'utf8' }).stdout).toBe('');
});
