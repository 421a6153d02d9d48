import { copyFileSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import type { Summary } from '../../core/job/summary.js';
import { malformedJobs, type SamplePart } from '../core/job/malformed-jobs.js';
import { ensureBuilt, projectFolder, runBuilt } from './helpers/built.js';
import { listing, temporaryFolder } from './helpers/folders.js';
import { accidents, runHere } from './helpers/in-process.js';

const top = temporaryFolder();
const newFolder = (): string => mkdtempSync(join(top, 'job-'));

const small = `job: small
title: A small job
tolerance: 0.1
parts:
  - name: one
    part: hatch-pull
    quantity: 2
    parameters: { size: 20 }
  - name: two
    part: spur-gear
    parameters: { teeth: 17, faceWidth: 8, bore: 6 }
`;

const sample: SamplePart = {
  part: 'helical-gear',
  misspelt: 'helical-geer',
  length: 'faceWidth',
  lengthMisspelt: 'faceWidht',
  count: 'teeth',
  angle: 'helixAngle',
  choice: 'hand',
  flag: null,
};

describe('plate', () => {
  test('makes every part of the job; units of the papers can be chosen', async () => {
    const cwd = newFolder();
    writeFileSync(join(cwd, 'small.yaml'), small);
    const ran = await runHere(['plate', 'small.yaml', '--units', 'in', '--degrees', 'F'], { cwd });
    expect(ran).toMatchObject({ code: 0, err: '' });
    expect(ran.out).toMatch(/^A small job \(small\)\n/);
    expect(ran.out).toContain('size, in');
    expect(ran.out.endsWith('\nWrote out/small\nOpen first: out/small/traveller.html\n')).toBe(true);
    const summary = JSON.parse(readFileSync(join(cwd, 'out/small/summary.json'), 'utf8')) as Summary;
    expect(summary.parts.map((p) => [p.name, p.quantity])).toEqual([
      ['one', 2],
      ['two', 1],
    ]);
    // The papers' unit does not change how the job is read.
    expect(summary.parts[1]!.parameters.faceWidth).toBe(8);
    for (const part of ['one', 'two'])
      expect(readdirSync(join(cwd, 'out/small', part))).toContain('gated.stl');
  });

  test('gives the same bytes each time', async () => {
    const cwd = newFolder();
    writeFileSync(join(cwd, 'small.yaml'), small);
    await runHere(['plate', 'small.yaml', '--out', 'a', '--quiet'], { cwd });
    await runHere(['plate', 'small.yaml', '--out', 'b', '--quiet'], { cwd });
    expect(listing(join(cwd, 'a'))).toEqual(listing(join(cwd, 'b')));
  });

  test('a refused job tells each part that cannot be made', async () => {
    const cwd = newFolder();
    const bores = small.replace('bore: 6', 'bore: 80');
    writeFileSync(
      join(cwd, 'small.yaml'),
      `${bores}  - { name: three, part: spur-gear, parameters: { bore: 90 } }\n`,
    );
    const ran = await runHere(['plate', 'small.yaml', '--json', '--no-keep-going'], { cwd });
    expect(ran.code).toBe(1);
    expect(ran.err).toMatch(/^stop: two: .+ \[bore-through-root\]$/m);
    expect(ran.err).toMatch(/^stop: three: .+ \[bore-through-root\]$/m);
    expect(ran.err.endsWith('\nNothing was written.\n')).toBe(true);
    const { problems } = JSON.parse(ran.out) as { problems: { part: string }[] };
    expect(new Set(problems.map((p) => p.part))).toEqual(new Set(['two', 'three']));
    expect(readdirSync(cwd)).toEqual(['small.yaml']);
  });
});

const table = malformedJobs(sample);

describe('malformed jobs', () => {
  test.each(table.map((row) => [row.name, row] as const))('%s', async (_, row) => {
    const cwd = newFolder();
    writeFileSync(join(cwd, 'job.yaml'), row.source);
    const ran = await runHere(['plate', 'job.yaml', '--json'], { cwd });
    expect(ran.code).toBe(2);
    const lines = ran.err.split('\n');
    expect(lines, ran.err).toHaveLength(2);
    const [, line, column] = /^job\.yaml:(\d+):(\d+) ./.exec(lines[0]!) ?? [];
    expect(Number(line)).toBe(row.line);
    if (row.column !== undefined) expect(Number(column)).toBe(row.column);
    for (const words of row.says) expect(lines[0]).toContain(words);
    expect(ran.err).not.toMatch(accidents);
    const { problems } = JSON.parse(ran.out) as { problems: Record<string, unknown>[] };
    expect(problems).toEqual([
      expect.objectContaining({ text: lines[0], code: row.code, file: 'job.yaml', line: row.line }),
    ]);
    expect(readdirSync(cwd)).toEqual(['job.yaml']);
  });
});

describe('the built program', () => {
  beforeAll(ensureBuilt);

  const hard = [
    'empty file',
    'binary file',
    'five megabytes',
    'alias bomb',
    'deep flow nesting',
    'deep block nesting',
    'part name: parent folder',
    'misspelt parameter',
  ];

  test.each(hard)('%s: one line on standard error, exit 2, nothing written', (name) => {
    const row = table.find((r) => r.name === name)!;
    const cwd = newFolder();
    writeFileSync(join(cwd, 'job.yaml'), row.source);
    const ran = runBuilt(['plate', 'job.yaml'], { cwd, timeout: 120_000 });
    expect(ran).toMatchObject({ code: 2, out: '', signal: null });
    expect(ran.err).toMatch(new RegExp(`^job\\.yaml:${row.line}:\\d+ [^\\n]+\\n$`));
    expect(readdirSync(cwd)).toEqual(['job.yaml']);
  });

  test('several mistakes are told at once, in the order of the file', () => {
    const cwd = newFolder();
    writeFileSync(
      join(cwd, 'job.yaml'),
      small.replace('tolerance', 'tolerence').replace('size: 20', 'size: 2000'),
    );
    const ran = runBuilt(['plate', 'job.yaml'], { cwd });
    expect(ran.code).toBe(2);
    expect(
      ran.err
        .trimEnd()
        .split('\n')
        .map((l) => l.slice(0, 12)),
    ).toEqual(['job.yaml:3:1', 'job.yaml:8:2']);
  });

  test('makes the example job of the gallery as it stands', () => {
    const cwd = newFolder();
    mkdirSync(join(cwd, 'gallery'));
    copyFileSync(join(projectFolder, 'gallery/ropewalk/job.yaml'), join(cwd, 'gallery/job.yaml'));
    const ran = runBuilt(['plate', 'gallery/job.yaml'], { cwd });
    expect(ran).toMatchObject({ code: 0, err: '' });
    const summary = JSON.parse(readFileSync(join(cwd, 'out/ropewalk/summary.json'), 'utf8')) as Summary;
    expect(summary.parts.length).toBeGreaterThanOrEqual(6);
    expect(summary.parts.filter((p) => p.quantity > 1).length).toBeGreaterThanOrEqual(2);
    expect(summary.plates.flatMap((p) => p.placements)).toHaveLength(
      summary.parts.reduce((n, p) => n + p.quantity, 0),
    );
  });
});
