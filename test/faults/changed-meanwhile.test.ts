/** What a job was read from changes, or goes, while it is made: what is made is what was read. */
import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, expect, test } from 'vitest';
import { ensureBuilt } from '../cli/helpers/built.js';
import { listing, temporaryFolder } from '../cli/helpers/folders.js';
import { partSource } from '../cli/helpers/part-files.js';
import { expectClear, runProgram } from './helpers/program.js';

beforeAll(ensureBuilt);

const root = temporaryFolder();
const patience = 300_000;
const job = `job: a
tolerance: 0.2
freeze: off
parts:
  - {name: block, part: mesh, parameters: {file: block.stl, fileUnit: mm}}
  - {name: pull, part: hatch-pull, parameters: {size: 20}}
  - {name: own, part: ./own.mjs}
`;

/** A cube in words. */
function cube(size: number): string {
  const corner = (i: number): string => [i & 1, (i >> 1) & 1, i >> 2].map((k) => k * size).join(' ');
  const faces = ['0264', '1573', '0451', '2376', '0132', '4675'].map((face) => [...face].map(Number));
  const facets = faces.flatMap(([a, b, c, d]) => [
    [a, b, c],
    [a, c, d],
  ]);
  const lines = facets.map(
    (facet) =>
      `facet normal 0 0 0\nouter loop\n${facet.map((i) => `vertex ${corner(i as number)}`).join('\n')}\nendloop\nendfacet`,
  );
  return ['solid cube', ...lines, 'endsolid cube', ''].join('\n');
}

function placeOf(name: string): string {
  const cwd = join(root, name);
  mkdirSync(join(cwd, 'shelf'), { recursive: true });
  writeFileSync(join(cwd, 'job.yaml'), job);
  writeFileSync(join(cwd, 'own.mjs'), partSource());
  writeFileSync(join(cwd, 'block.stl'), cube(20));
  return cwd;
}

const argv = ['plate', 'job.yaml', '--out', 'shelf/out', '--quiet', '--threads', '2'];

/** Runs the job; a script does its work when all has been read and nothing has been made. */
async function runWhile(cwd: string, script: string) {
  const code = `const fs = require('fs'); process.chdir(process.argv[1]); fs.writeFileSync('ran', ''); ${script}`;
  const meanwhile = [process.execPath, '-e', code, cwd];
  const temporary = join(cwd, 'tmp');
  mkdirSync(temporary);
  // What dead runs left there is looked for before there are threads.
  const disk = { watch: [temporary], calls: 'opening', at: 1, fault: 'meanwhile', meanwhile } as const;
  const ended = await runProgram(argv, { cwd, env: { TMPDIR: temporary }, faults: { disk } });
  expect(existsSync(join(cwd, 'ran'))).toBe(true);
  return ended;
}

let whole: readonly string[];
beforeAll(async () => {
  const cwd = placeOf('plain');
  expect(await runProgram(argv, { cwd })).toMatchObject({ code: 0, out: '', err: '' });
  whole = listing(join(cwd, 'shelf/out'));
}, patience);

test(
  'a job and its mesh file, other than they were read: the same bytes as if nothing had been',
  async () => {
    const cwd = placeOf('changed');
    const files = { 'job.yaml': 'job: b\nparts: []\n', 'block.stl': cube(25) };
    const script = `for (const [name, text] of Object.entries(${JSON.stringify(files)})) fs.writeFileSync(name, text);`;
    expect(await runWhile(cwd, script)).toMatchObject({ code: 0, out: '', err: '' });
    expect(listing(join(cwd, 'shelf/out'))).toEqual(whole);
  },
  patience,
);

test(
  'a job and its mesh file, gone: the same',
  async () => {
    const cwd = placeOf('gone');
    const script = "for (const name of ['job.yaml', 'block.stl']) fs.rmSync(name);";
    expect(await runWhile(cwd, script)).toMatchObject({ code: 0, out: '', err: '' });
    expect(listing(join(cwd, 'shelf/out'))).toEqual(whole);
  },
  patience,
);

test.each([
  ['gone', "fs.rmSync('own.mjs');"],
  [
    'other than it was read',
    `fs.writeFileSync('own.mjs', ${JSON.stringify(partSource({ name: "'other'" }))});`,
  ],
])(
  'a part file, %s: costs its part, which is told with the file',
  async (name, script) => {
    const cwd = placeOf(`own-${name.slice(0, 4)}`);
    const ended = await runWhile(cwd, script);
    expectClear(
      ended,
      3,
      /^stop: own: \.\/own\.mjs has changed since the job was read\./m,
      /^Not made: 1 of 3 parts, own\./m,
    );
    const others = (files: readonly string[]) => files.filter((file) => /^pull\/\w+\.stl /.test(file));
    expect(others(listing(join(cwd, 'shelf/out')))).toEqual(others(whole));
  },
  patience,
);
