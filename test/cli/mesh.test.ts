import { copyFileSync, mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { writeStl } from '../../core/files/stl.js';
import type { Summary } from '../../core/job/summary.js';
import type { Finding } from '../../core/part/finding.js';
import { loadKernel } from '../../core/solid/index.js';
import type { MeshSurvey } from '../../generators/mesh/survey.js';
import { projectFolder } from './helpers/built.js';
import { listing, temporaryFolder } from './helpers/folders.js';
import { accidents, runHere } from './helpers/in-process.js';

const cwd = temporaryFolder();
copyFileSync(join(projectFolder, 'gallery/ropewalk/bearing-bracket.stl'), join(cwd, 'bracket.stl'));

/** 76 × 34 × 45 mm; foot 76 × 30 × 8, two bores of 6.6 through it, one of 12 along y at x 0, z 30. */
const bracket = ['make', 'mesh', '--file', 'bracket.stl', '--freeze', 'off'];
const mm = [...bracket, '--file-unit', 'mm'];

async function summaryOf(argv: readonly string[]): Promise<Summary> {
  const ran = await runHere([...argv, '--json'], { cwd });
  expect(ran).toMatchObject({ code: 0, err: '' });
  return JSON.parse(ran.out) as Summary;
}

async function refusal(...argv: string[]): Promise<{ code: number; err: string }> {
  const ran = await runHere(argv, { cwd });
  expect(ran.err).not.toMatch(accidents);
  expect(ran.code).not.toBe(0);
  return { code: ran.code, err: ran.err.replace(/\s+/g, ' ') };
}

const codes = (findings: readonly Finding[]): readonly string[] => findings.map((f) => f.code);
const dimension = ({ parts: [part] }: Summary, symbol: string) =>
  part!.dimensions.find((d) => d.symbol === symbol)!;

describe('make mesh', () => {
  test('writes the folder of a part, called after the file', async () => {
    const ran = await runHere(mm, { cwd });
    expect(ran).toMatchObject({ code: 0, err: '' });
    expect(ran.out).toContain('out/bracket/traveller.html');
    const files = listing(join(cwd, 'out/bracket')).map((line) => line.split(' ')[0]);
    for (const file of ['part.stl', 'casting.stl', 'pattern.stl', 'gated.stl', 'gated.3mf', 'drawing.svg'])
      expect(files).toContain(`bracket/${file}`);
  });

  test('asks for the unit that the file does not name, and shows a guess', async () => {
    const { code, err } = await refusal(...bracket);
    expect(code).toBe(1);
    expect(err).toContain('The file names no unit. Taken as millimetres it is 76 × 34 × 45 mm');
    expect(err).toContain('--file-unit mm');
  });

  test('refuses bodies that do not touch, with the place of the least; specks are told alone', async () => {
    const kernel = await loadKernel();
    const write = (name: string, side: number): void => {
      const mesh = kernel.scope(() =>
        kernel
          .box([0, 0, 0], [20, 20, 20])
          .add(kernel.box([30, 0, 0], [30 + side, side, side]))
          .mesh(),
      );
      writeFileSync(join(cwd, name), writeStl(mesh));
    };
    write('two.stl', 12);
    const rest = ['--file-unit', 'mm', '--freeze', 'off'];
    const { err } = await refusal('make', 'mesh', '--file', 'two.stl', ...rest);
    expect(err).toContain('2 bodies that do not touch; the least, 1728 mm³, lies near 36, 6, 6 mm');
    write('speck.stl', 0.4);
    const summary = await summaryOf(['make', 'mesh', '--file', 'speck.stl', ...rest]);
    expect(codes(summary.parts[0]!.findings)).toContain('specks');
  });

  test('refuses a size that no casting has', async () => {
    expect((await refusal(...bracket, '--file-unit', 'm')).err).toMatch(/76000 mm; at most 2000 mm/);
    expect((await refusal(...bracket, '--scale-to', '1900mm', '--scale-along', 'z')).err).toMatch(/3209/);
  });

  test('scales to a length that is known', async () => {
    const summary = await summaryOf([...bracket, '--scale-to', '6in']);
    for (const [k, side] of summary.parts[0]!.meshes.part.size.entries())
      expect(side).toBeCloseTo([76, 34, 45][k]! * (152.4 / 76), 1);
  });

  test('stock stands on the marked surfaces by their class, by an amount, and on the rest as skin', async () => {
    const summary = await summaryOf([
      ...mm,
      '--marks',
      'all bores = bore; bottom face = 1.5mm',
      '--stock.bore',
      '0.6mm',
      '--stock.skin',
      '0.3mm',
      '--up',
      'as-drawn',
    ]);
    const [part] = summary.parts;
    const rows = Object.fromEntries(part!.dimensions.map((d) => [d.symbol, d]));
    // Found on the mesh, by its own names; a bore gets narrower by its stock on both sides.
    expect(rows.D_1!.name).toBe('diameter of bore along y at 0, 30');
    expect(rows.D_1!.part).toBeCloseTo(12, 3);
    expect(rows.D_1!.casting).toBeCloseTo(12 - 2 * 0.6, 3);
    expect(rows.D_2!.casting).toBeCloseTo(6.6 - 2 * 0.6, 3);
    expect(rows.a_23!.casting).toBeCloseTo(56, 3);
    expect(rows.L!.casting).toBeCloseTo(76 + 2 * 0.3, 3);
    // From the foot's underside to its upper face.
    expect(rows.H!.part).toBeCloseTo(8, 3);
    expect(rows.H!.casting).toBeCloseTo(8 + 1.5 + 0.3, 3);
    expect(part!.meshes.casting.size[2]).toBeCloseTo(45 + 1.5 + 0.3, 2);
    expect(part!.surfaces).toEqual([
      { surfaceClass: 'bore', name: 'all bores (3)' },
      { surfaceClass: 'skin', name: 'bottom face', amount: 1.5 },
      { surfaceClass: 'skin', name: 'all the rest' },
    ]);
  });

  test('a worn casting gets back what is missing, then stock as any part', async () => {
    const worn = [...mm, '--wear', 'bore along y at 0, 30 = 0.4mm', '--stock.skin', '0.3mm'];
    const { err } = await refusal(...worn);
    expect(err).toContain('scan of a worn casting only');
    const summary = await summaryOf([...worn, '--measured-from-casting']);
    expect(dimension(summary, 'D_1').part).toBeCloseTo(12 - 0.8, 3);
    expect(dimension(summary, 'D_1').casting).toBeCloseTo(12 - 0.8 - 0.6, 3);
    expect(codes(summary.parts[0]!.findings)).toContain('measured-from-casting');
  });

  test('stands the best way, tells the next two, and takes the one that is asked for', async () => {
    const best = await summaryOf(mm);
    expect(codes(best.parts[0]!.findings)).toEqual(
      expect.arrayContaining(['stand-best', 'stand-second', 'stand-third']),
    );
    const side = await summaryOf([...mm, '--up', 'right']);
    expect(side.parts[0]!.meshes.part.size.map(Math.round)).toEqual([45, 34, 76]);
  });

  test('metal enters where it is asked to, or the nearest that serves is told', async () => {
    const turned = [...mm, '--up', 'bottom', '--gate-at'];
    const summary = await summaryOf([...turned, 'bottom face']);
    // Of the casting upside down, its foot on top.
    expect(summary.parts[0]!.gating.gates[0]!.at[2]).toBeGreaterThan(45);
    expect((await refusal(...turned, '12, 30')).err).toContain('Write x, y, z as drawn');
    expect((await refusal(...turned, '28, 0, 0')).err).toMatch(/The nearest that serves is -?\d/);
    expect((await refusal(...turned, 'botom face')).err).toMatch(/did you mean bottom face\?/i);
    // A marked face that is named serves.
    const marked = await summaryOf([...turned, 'bottom face', '--marks', 'bottom face = face']);
    expect(marked.parts[0]!.gating.gates[0]!.at[2]).toBeGreaterThan(45);
  });

  test.each([
    [['--marks', 'top fase = face'], 'Did you mean top face?'],
    [['--marks', 'bore at 99, 99 = bore'], 'There is no surface "bore at 99, 99"'],
    [['--marks', 'top face = gold'], 'flank, tip, face, bore, skin, mating'],
    [['--marks', 'top face = -1mm'], 'move inward, by up to 1 mm, and others move outward'],
    [['--marks', 'everything = -6mm'], '6 mm could not be put on its surface'],
    [['--gate-at', '0,0; 0,1; 0,2; 0,3; 0,4'], '5 places are named for gates. Name 4 at most'],
    [['--up', 'sideways'], 'one of best, second'],
  ])('refuses %s', async (options, told) => {
    expect((await refusal(...mm, ...options)).err).toContain(told);
  });

  test('tells a file that is missing, a folder, or no mesh, by its option or its line', async () => {
    mkdirSync(join(cwd, 'folder.stl'));
    writeFileSync(join(cwd, 'words.stl'), 'These are words.\n');
    const asked = async (file: string) => (await refusal('make', 'mesh', '--file', file)).err;
    expect(await asked('nowhere.stl')).toMatch(/^--file: cannot be read: there is no such file/);
    expect(await asked('folder.stl')).toMatch(/^--file: cannot be read: .*is a folder/);
    expect(await asked('words.stl')).toMatch(/^--file: cannot be used: /);
    expect((await refusal('make', 'mesh')).err).toMatch(/--file is missing/);
    writeFileSync(
      join(cwd, 'job.yaml'),
      'job: a\nparts:\n  - name: a\n    part: mesh\n    parameters:\n      file: words.stl\n',
    );
    expect((await refusal('plate', 'job.yaml')).err).toMatch(/^job\.yaml:6:\d+ parts\[0\]\.parameters\.file/);
  });
});

test('the example job of a worn bracket is made from any folder', async () => {
  const job = join(projectFolder, 'gallery/ropewalk/bracket.yaml');
  const summary = await summaryOf(['plate', job, '--freeze', 'off']);
  expect(dimension(summary, 'D_1').part).toBeCloseTo(11.2, 3);
  expect(codes(summary.parts[0]!.findings)).not.toContain('mark-hidden');
});

describe('examine', () => {
  const examine = async (...argv: string[]) => runHere(['examine', ...argv], { cwd });

  test('names the surfaces, the ways to stand and the gates', async () => {
    const ran = await examine('bracket.stl');
    expect(ran).toMatchObject({ code: 0, err: '' });
    for (const told of [
      '1356 triangles',
      'bottom face',
      'bore at 28, 0',
      'ø6.6 × 8.0 mm',
      'best',
      'Metal could enter',
    ])
      expect(ran.out).toContain(told);
    for (const line of ran.out.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
  });

  test('in inches; and the same as data, in mm', async () => {
    const inches = await examine('bracket.stl', '--units', 'in');
    expect(inches.out).toContain('2.99 × 1.34 × 1.77 in');
    expect(inches.out).toContain('bore at 1.1, 0');
    const survey = JSON.parse((await examine('bracket.stl', '--json')).out) as MeshSurvey;
    expect(survey.size.map(Math.round)).toEqual([76, 34, 45]);
    // Foot, block and half round, collars, less the bores, by hand; the rounds are polygons.
    const round = (r: number) => Math.PI * r * r;
    const byHand =
      76 * 30 * 8 +
      30 * 26 * (30 - 8) +
      (round(15) / 2) * 26 +
      round(11) * 8 -
      round(6) * 34 -
      2 * round(3.3) * 8;
    expect(survey.volume! / byHand).toBeCloseTo(1, 2);
    expect(survey.surfaces.filter((s) => s.diameter !== undefined)).toHaveLength(5);
  });

  test('an open mesh is told with its place, and exits 1', async () => {
    // A box without its lid.
    const corners = [0, 1, 2, 3, 4, 5, 6, 7].map((i) => `v ${30 * (i & 1)} ${15 * (i & 2)} ${5 * (i & 4)}`);
    const sides = ['1 3 4 2', '1 2 6 5', '2 4 8 6', '4 3 7 8', '3 1 5 7'].map((side) => `f ${side}`);
    writeFileSync(join(cwd, 'open.obj'), [...corners, ...sides, ''].join('\n'));
    const ran = await examine('open.obj', '--file-unit', 'mm');
    expect(ran.code).toBe(1);
    expect(ran.out.replace(/\s+/g, ' ')).toMatch(
      / stop 1 surface is an open sheet.*--close-holes.* A flat hole of 4 edges, 42\.43 mm across, near 15, 15, 20 mm/,
    );
    const closed = await examine('open.obj', '--file-unit', 'mm', '--close-holes', '45mm');
    expect(closed.code).toBe(0);
    expect(closed.out).toContain('18.0 cm³');
    expect(await examine()).toMatchObject({ code: 2 });
    expect(await examine('nowhere.obj')).toMatchObject({ code: 2, out: '' });
  });
});
