/** Parts from files of one's own, made by the built program. */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { JobError, plate } from '../../cli/api.js';
import type { Summary } from '../../core/job/summary.js';
import { builtMain, ensureBuilt, runBuilt } from './helpers/built.js';
import { listing, temporaryFolder } from './helpers/folders.js';
import { jobOf, partSource, writeFiles } from './helpers/part-files.js';

const cwd = temporaryFolder();
const quick = ['--freeze', 'off', '--tolerance', '0.1'];
/** Node tells whether it runs TypeScript; older ones tell nothing. */
const runsTypes = Boolean((process.features as { typescript?: unknown }).typescript);

beforeAll(() => {
  ensureBuilt();
  writeFiles(cwd, {
    'spacer.mjs': partSource({ more: 'presets: { tall: { height: 40 } }' }),
    'types.mts': partSource().replace(
      'build(p, stock',
      'build(p: { diameter: number; height: number }, stock',
    ),
  });
});

const run = (...argv: readonly string[]) => runBuilt(argv, { cwd });
const summaryOf = (out: string): Summary =>
  JSON.parse(readFileSync(join(cwd, out, 'summary.json'), 'utf8')) as Summary;

describe('make with a part file', () => {
  test('helps as for a part of the program, and says that it is code', () => {
    const { code, out, err } = run('make', './spacer.mjs', '--help');
    expect({ code, err }).toEqual({ code: 0, err: '' });
    for (const words of [
      'patternwright make ./spacer.mjs [options]',
      'Plain round spacer.',
      '--diameter <mm>           Outside diameter\n                              from 5 to 100 mm; default: 30 mm',
      'one of tall',
      '--alloy <name>',
      'A part file is code: it is run, with the rights of who runs it',
    ])
      expect(out).toContain(words);
    expect(run('make', './spacer.mjs', '--help', '--units', 'in').out).toContain('--diameter <in>');
  });

  test('makes it, and says in the summary what it is and which file it is from', () => {
    const ran = run(
      'make',
      './spacer.mjs',
      '--diameter',
      '1.5in',
      '--preset',
      'tall',
      '--name',
      'shim',
      ...quick,
    );
    expect(ran.err).toBe('');
    const [part] = summaryOf('out/shim').parts;
    expect(part).toMatchObject({ name: 'shim', part: 'spacer', partFile: './spacer.mjs' });
    expect(part!.meshes.part.size[2]).toBeCloseTo(40, 5);
    expect(part!.dimensions[0]!.part).toBeCloseTo(38.1, 9);
    // A cylinder of 1.5 in and the preset's 40 mm; chords that stay within t leave out 4t/3r of its circle at most.
    const share = part!.volume.part / (Math.PI * 19.05 ** 2 * 40);
    expect(share).toBeGreaterThan(1 - (4 * 0.1) / (3 * 19.05));
    expect(share).toBeLessThan(1);
    expect(listing(join(cwd, 'out/shim')).map((line) => line.split(' ')[0])).toContain('shim/gated.stl');
  });

  test('refuses its options as those of any part', () => {
    expect(run('make', './spacer.mjs', '--diameter', '300')).toMatchObject({
      code: 2,
      err: '--diameter is 300; from 5 to 100 mm\n',
    });
    expect(run('make', './spacer.mjs', '--heigth', '3').err).toContain('did you mean --height?');
  });

  test('takes a path without ./, and an absolute one', () => {
    for (const path of ['spacer.mjs', join(cwd, 'spacer.mjs')])
      expect(run('make', path, '--help').out).toContain('Plain round spacer.');
  });
});

describe('a job with part files', () => {
  test('finds them from its own folder, whatever their names', () => {
    const taller = partSource({
      result: {
        solid: 'kernel.frustum([0, 0], z0, r, z1 + 5, r, tolerance)',
        gates: "[{ name: 'g', at: [0, 0, z1 + 5], innerDiameter: 0, outerDiameter: r }]",
        vents: '[]',
      },
    });
    writeFiles(cwd, {
      'shop/one/spacer.mjs': partSource(),
      'shop/two/spacer.mjs': taller,
      'shop/hatch-pull.mjs': partSource({
        name: "'hatch-pull'",
        more: "pieces: [{ name: 'ring', title: 'A ring' }, { name: 'pin', title: 'A pin' }]",
      }),
      'shop/jobs/own.yaml': `job: own
freeze: off
tolerance: 0.1
parts:
  - { name: a, part: ../one/spacer.mjs, parameters: { diameter: 1in } }
  - { name: b, part: ../two/spacer.mjs, quantity: 2 }
  - { name: c, part: "../hatch-pull.mjs" }
  - { name: d, part: hatch-pull }
`,
    });
    const ran = run('plate', 'shop/jobs/own.yaml');
    expect(ran.code, ran.err).toBe(0);
    expect(ran.err).toBe(
      'Running part files, which are code: ../one/spacer.mjs, ../two/spacer.mjs, ../hatch-pull.mjs.\n',
    );
    expect(
      summaryOf('out/own').parts.map((p) => [p.name, p.part, p.partFile, p.meshes.part.size[2]]),
    ).toEqual([
      ['a', 'spacer', '../one/spacer.mjs', 10],
      ['b', 'spacer', '../two/spacer.mjs', 15],
      ['c-ring', 'hatch-pull', '../hatch-pull.mjs', 10],
      ['c-pin', 'hatch-pull', '../hatch-pull.mjs', 10],
      ['d', 'hatch-pull', undefined, expect.any(Number)],
    ]);
    expect(run('plate', 'shop/jobs/own.yaml', '--quiet').err).toBe('');
  });

  test('tells of its parameters at their place in the job', () => {
    writeFiles(cwd, { 'wrong.yaml': `${jobOf(['./spacer.mjs'])}    parameters: { diametre: 12 }\n` });
    expect(run('plate', 'wrong.yaml').err).toContain(
      'wrong.yaml:6:19 parts[0].parameters.diametre: unknown key; did you mean diameter?',
    );
  });

  test('is refused where no part files are run, with words', async () => {
    const error = (await plate(jobOf(['./spacer.mjs']), { fileName: 'own.yaml' }).catch(
      (e) => e,
    )) as JobError;
    expect(error).toBeInstanceOf(JobError);
    expect(error.message).toBe(
      'own.yaml:5:11 parts[0].part is ./spacer.mjs, the path of a part file, which is code and is not run here; make the job with the command line: patternwright plate',
    );
  });
});

describe('a part file', () => {
  test('gets the program that runs it, whatever is installed beside it', () => {
    writeFiles(cwd, {
      'beside/node_modules/patternwright/package.json': '{ "name": "patternwright", "main": "index.js" }',
      'beside/node_modules/patternwright/index.js': "throw new Error('another program');",
      'beside/node_modules/tools/package.json': '{ "name": "tools", "type": "module", "main": "index.js" }',
      'beside/node_modules/tools/index.js': "export { angle } from 'patternwright';",
      'beside/part.js': `import { angle as sameAngle } from 'tools';\n${partSource({ before: "if (sameAngle !== angle) throw new Error('two programs');" })}`,
    });
    expect(run('make', './beside/part.js', '--help')).toMatchObject({ code: 0, err: '' });
  });

  test('that is .js in a folder of old modules is told so', () => {
    writeFiles(cwd, { 'old/package.json': '{ "type": "commonjs" }', 'old/part.js': partSource() });
    expect(run('make', './old/part.js')).toMatchObject({
      code: 2,
      err: './old/part.js is no module where it lies; call it .mjs\n',
    });
  });

  test('in TypeScript is run where Node leaves its types out, and refused with a way out elsewhere', () => {
    const ran = run('make', './types.mts', '--help');
    if (runsTypes)
      expect(ran).toMatchObject({ code: 0, out: expect.stringContaining('Plain round spacer.') });
    else
      expect(ran).toMatchObject({
        code: 2,
        err: `./types.mts is TypeScript, which Node ${process.versions.node} does not run; use Node 22.18 or newer, or compile it with tsc and give the .js file\n`,
      });
  });

  test.runIf(runsTypes)('in TypeScript that is wrong is told with its line', () => {
    writeFiles(cwd, { 'enum.mts': '\nenum A { B }\n', 'typo.mts': '\nconst a: number = ;\n' });
    expect(run('make', './enum.mts').err).toMatch(/^\.\/enum\.mts:2(:1)? TypeScript enum is not supported/);
    expect(run('make', './typo.mts').err).toMatch(
      /^\.\/typo\.mts:2(:\d+)? Expression expected; mend the line/,
    );
  });

  test('prints to the messages, not among the results', () => {
    writeFiles(cwd, { 'chatty.mjs': partSource({ before: "console.log('drawing a spacer');" }) });
    const { out, err } = run('make', './chatty.mjs', '--json', ...quick);
    expect(JSON.parse(out)).toMatchObject({ parts: [{ part: 'spacer' }] });
    expect(err).toContain('drawing a spacer\n');
  });

  test('that fails after it was run ends the run with one line and writes nothing', () => {
    const before = "setTimeout(() => {\n  throw new Error('too late');\n}, 0);";
    writeFiles(cwd, { 'late.mjs': partSource({ before }) });
    const ran = run('make', './late.mjs', '--out', 'late', ...quick);
    expect(ran).toMatchObject({
      code: 1,
      err: 'A part file failed after it was run, at ./late.mjs:3:9: too late\nNothing was written.\n',
    });
    expect(existsSync(join(cwd, 'late'))).toBe(false);
  });

  test('that leaves a timer running does not keep the program', () => {
    writeFiles(cwd, { 'ticks.mjs': partSource({ before: 'setInterval(() => undefined, 1000);' }) });
    const ran = runBuilt(['make', './ticks.mjs', '--help'], { cwd, timeout: 120_000 });
    expect(ran).toMatchObject({ code: 0, signal: null, err: '' });
    expect(ran.out).toContain('A part file is code');
  });

  test.runIf(process.platform !== 'win32')('that never ends is ended by an interrupt', async () => {
    writeFiles(cwd, { 'endless.mjs': partSource({ steps: "console.error('begun'); for (;;);" }) });
    const child = spawn(process.execPath, [builtMain, 'make', './endless.mjs', '--out', 'endless'], {
      cwd,
      stdio: ['ignore', 'ignore', 'pipe'],
    });
    const ended = once(child, 'exit');
    await once(child.stderr, 'data');
    child.kill('SIGINT');
    expect(await ended).toEqual([null, 'SIGINT']);
    expect(existsSync(join(cwd, 'endless'))).toBe(false);
  });
});

describe('stock that build takes no notice of', () => {
  const deaf = (surfaces: string): string =>
    partSource({
      steps: 'const bare = [p.diameter / 2, 0, p.height];',
      result: {
        solid: 'kernel.frustum([0, 0], bare[1], bare[0], bare[2], bare[0], tolerance)',
        surfaces,
        gates: "[{ name: 'end', at: [0, 0, p.height], innerDiameter: 0, outerDiameter: p.diameter / 2 }]",
        vents: '[]',
      },
    });
  const warned = (file: string, ...argv: string[]): boolean => {
    const ran = run('make', file, ...quick, ...argv);
    expect(ran.code, ran.err).toBe(0);
    return ran.out.includes('[stock-not-taken]');
  };

  test('is warned of, unless no surface is to have any', () => {
    writeFiles(cwd, {
      'deaf.mjs': deaf("[{ surfaceClass: 'face', name: 'ends' }]"),
      'tip.mjs': deaf("[{ surfaceClass: 'face', name: 'ends' }]"),
    });
    expect(warned('./deaf.mjs')).toBe(true);
    expect(run('make', './deaf.mjs', '--strict', ...quick).err).toContain(
      'The build of ./deaf.mjs takes no notice of the stock: the casting has no finishing stock.',
    );
    expect(warned('./deaf.mjs', '--stock.face', '0')).toBe(false);
    expect(warned('./spacer.mjs')).toBe(false);
  });
});

describe('starter', () => {
  test.each([
    // Its casting is to freeze without a void too.
    ['my-part.mjs', 'my-part', []],
    ['Rope Clamp.js', 'rope-clamp', ['--preset', 'wide', ...quick]],
  ])('writes %s, which makes a sound part at once', (file, name, more) => {
    const wrote = run('starter', file);
    expect(wrote).toEqual({
      code: 0,
      err: '',
      signal: null,
      out: `Wrote ./${file}\nNext: patternwright make ./${file}\n`,
    });
    const made = run('make', `./${file}`, '--strict', '--json', ...more);
    expect(made.code, made.err).toBe(0);
    expect(JSON.parse(made.out)).toMatchObject({
      job: { name },
      parts: [{ part: name, partFile: `./${file}` }],
    });
    expect(run('make', `./${file}`, '--bore', '28').err).toContain('[hub-too-thin]');
  });

  test('never overwrites, and says what it can write', () => {
    writeFiles(cwd, { 'kept.mjs': 'mine' });
    expect(run('starter', 'kept.mjs')).toMatchObject({
      code: 2,
      err: 'kept.mjs is there already; choose another name: nothing is overwritten\n',
    });
    expect(readFileSync(join(cwd, 'kept.mjs'), 'utf8')).toBe('mine');
    expect(run('starter', 'part.py').err).toContain('end it in .mjs, .js, .ts or .mts, like part.mjs');
    expect(run('starter', 'no/such/part.mjs').err).toContain('make the folder first');
    expect(run('starter').err).toContain('starter needs the name of a file');
    expect(run('starter', '--help').out).toContain('A part file is code');
  });

  test('writes TypeScript with its types, the same part', () => {
    const { out } = run('starter', 'typed.mts');
    expect(out.includes('does not run TypeScript')).toBe(!runsTypes);
    const text = readFileSync(join(cwd, 'typed.mts'), 'utf8');
    expect(text).toContain('function profile(p: Sizes, stock: Stock): readonly Vec2[] {');
    expect(text).toContain("name: 'typed'");
  });
});
