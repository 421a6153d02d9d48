/** Part files that are wrong: each is told in its main words, with its line, and nothing is written. */
import { existsSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { ensureBuilt, runBuilt } from './helpers/built.js';
import { temporaryFolder } from './helpers/folders.js';
import { jobOf, partSource, soundParameters, writeFiles } from './helpers/part-files.js';

const cwd = temporaryFolder();

/** Numbers that are none may be quoted; stacks may not. */
const accidents = /\n\s+at |node:internal|\[object|This should not have happened/;

interface Case {
  readonly file: string;
  /** Left out: there is none. */
  readonly source?: string;
  /** What its message has. */
  readonly says: readonly string[];
}

const size = (field: string): string => partSource({ parameters: `z.object({ size: ${field} })` });
const about = "help: 'Size', group: 'Size'";

/** Refused as they are loaded. */
const unloadable: readonly Case[] = [
  { file: './not-there.mjs', says: ['cannot read ./not-there.mjs: there is no such file'] },
  { file: './folder.mjs', says: ['./folder.mjs is a folder'] },
  {
    file: './part.json',
    source: '{}',
    says: ['./part.json', 'is not a part file', '.mjs, .js, .ts or .mts'],
  },
  { file: './no-extension', source: '', says: ['is not a part file'] },
  { file: './empty.mjs', source: '', says: ['has no default export', 'definePart'] },
  {
    file: './broken.mjs',
    source: 'const a = 1;\nexport default {\n  name: "x" y\n};\n',
    says: ['./broken.mjs:3:13 Unexpected identifier'],
  },
  { file: './broken.js', source: 'export default\n: = 3;\n', says: ["./broken.js:2:1 Unexpected token ':'"] },
  { file: './text.mjs', source: 'This is no program.\n', says: ['./text.mjs:1:'] },
  {
    file: './imports-broken.mjs',
    source: "import './broken.mjs';\nexport default 1;\n",
    says: ['broken.mjs:3:13 Unexpected identifier'],
  },
  {
    file: './package.mjs',
    source: "\nimport x from 'no-such-package';\nexport default x;\n",
    says: ['./package.mjs:2', 'imports no-such-package, which is not there', 'npm install no-such-package'],
  },
  {
    file: './sibling.mjs',
    source: "import x from './no-sibling.mjs';\nexport default x;\n",
    says: ['./sibling.mjs:1', 'no-sibling.mjs, which is not there', 'check its path'],
  },
  {
    file: './unknown-name.mjs',
    source: "import { definePart, lenght } from 'patternwright';\nexport default lenght;\n",
    says: ['./unknown-name.mjs:1', "export named 'lenght'", 'check the names in braces'],
  },
  {
    file: './throws.mjs',
    source: "\n\nthrow new Error('Out of paper');\n",
    says: ['./throws.mjs:3:7', 'failed as it was run: Out of paper'],
  },
  { file: './throws-text.mjs', source: "throw 'paper';\n", says: ['threw "paper", not an Error'] },
  { file: './throws-nothing.mjs', source: 'throw null;\n', says: ['threw null, not an Error'] },
  {
    file: './undeclared.mjs',
    source: '\nexport default definePart({});\n',
    says: ['./undeclared.mjs:2 definePart is not defined', 'import it'],
  },
  {
    file: './require.mjs',
    source: "const p = require('patternwright');\nexport default p;\n",
    says: ['./require.mjs:1:11', 'require is not defined', 'import'],
  },
  { file: './exits.mjs', source: '\nprocess.exit(0);\n', says: ['./exits.mjs:2:9', 'calls process.exit'] },
  {
    file: './waits.mjs',
    source: 'await new Promise(() => {});\nexport default 1;\n',
    says: ['waits for something that never comes'],
  },
  {
    file: './recursive.mjs',
    source: 'const f = () => f() + 1;\nexport default f();\n',
    says: ['./recursive.mjs:1:', 'endless recursion'],
  },
  {
    file: './named.mjs',
    source: 'export const spacer = 1;\n',
    says: ['has no default export, only spacer', 'export default'],
  },
  { file: './number.mjs', source: 'export default 3;\n', says: ['the default export is a number'] },
  { file: './function.mjs', source: 'export default () => 3;\n', says: ['the default export is a function'] },
  { file: './class.mjs', source: 'export default class Part {}\n', says: ['the default export is a class'] },
  {
    file: './promise.mjs',
    source: 'export default Promise.resolve(3);\n',
    says: ['the default export is a promise'],
  },
  { file: './list.mjs', source: 'export default [];\n', says: ['the default export is a list'] },
  { file: './nothing-in-it.mjs', source: 'export default {};\n', says: ['name is missing'] },
  {
    file: './getter.mjs',
    source: "export default { get name() { throw new Error('boo'); } };\n",
    says: ['cannot be read: boo'],
  },
  {
    file: './capital-name.mjs',
    source: partSource({ name: "'Spool Flange'" }),
    says: ['./capital-name.mjs:4 name is Spool Flange', 'spool-flange'],
  },
  {
    file: './path-name.mjs',
    source: partSource({ name: "'../../etc/x'" }),
    says: ['name is ../../etc/x', 'small letters'],
  },
  {
    file: './device-name.mjs',
    source: partSource({ name: "'con'" }),
    says: ['name is a name that Windows keeps for itself'],
  },
  {
    file: './long-name.mjs',
    source: partSource({ name: "'a'.repeat(80)" }),
    says: ['name is 80 characters long'],
  },
  {
    file: './no-summary.mjs',
    source: partSource({ summary: "''" }),
    says: ['./no-summary.mjs:5 summary is empty'],
  },
  {
    file: './plain-object.mjs',
    source: partSource({ parameters: '{ size: 3 }' }),
    says: ['parameters is a plain object', 'z.object'],
  },
  {
    file: './transform.mjs',
    source: partSource({ parameters: 'z.object({}).transform((v) => v)' }),
    says: ['parameters has a transform'],
  },
  {
    file: './list-schema.mjs',
    source: partSource({ parameters: 'z.array(z.number())' }),
    says: ["of zod's kind array"],
  },
  {
    file: './zod-alone.mjs',
    source: size('z.number().min(1).max(3).default(2)'),
    says: ['parameters.size is of zod alone', 'length, angle'],
  },
  { file: './no-field.mjs', source: size('12'), says: ['parameters.size is 12', 'make it with length'] },
  {
    file: './snake-case.mjs',
    source: partSource({
      parameters: `z.object({ wall_size: length({ min: 1, max: 2, default: 1, ${about} }) })`,
    }),
    says: ['parameters.wall_size', 'is not a name', 'camelCase'],
  },
  {
    file: './clash.mjs',
    source: partSource({
      parameters: `z.object({ layerHeight: length({ min: 1, max: 2, default: 1, ${about} }) })`,
    }),
    says: ['parameters.layerHeight', 'clashes with the option --layer-height of make'],
  },
  {
    file: './clash-out.mjs',
    source: partSource({ parameters: `z.object({ out: flag({ default: true, ${about} }) })` }),
    says: ['clashes with the option --out of make'],
  },
  {
    file: './negation.mjs',
    source: partSource({ parameters: `z.object({ noHoles: flag({ default: true, ${about} }) })` }),
    says: ['gives --no-holes', 'opposite of a flag'],
  },
  {
    file: './default-out.mjs',
    source: size(`length({ min: 5, max: 10, default: 12, ${about} })`),
    says: ['parameters.size.default is 12', 'from 5 to 10 mm'],
  },
  {
    file: './default-angle.mjs',
    source: size(`angle({ min: 0, max: 1, default: 45, ${about} })`),
    says: ['default is 45', 'given in radians'],
  },
  {
    file: './default-half.mjs',
    source: size(`count({ min: 1, max: 9, default: 2.5, ${about} })`),
    says: ['default is 2.5', 'a whole number from 1 to 9'],
  },
  {
    file: './default-choice.mjs',
    source: size(`choice(['a', 'b'], { default: 'c', ${about} })`),
    says: ['default is c', 'one of a, b'],
  },
  {
    file: './no-default.mjs',
    source: size(`length({ min: 5, max: 10, ${about} })`),
    says: ['parameters.size', 'has no default', 'derived'],
  },
  {
    file: './no-range.mjs',
    source: size(`length({ default: 10, ${about} })`),
    says: ['parameters.size', 'has no min and max'],
  },
  {
    file: './no-help.mjs',
    source: size('length({ min: 1, max: 2, default: 1 })'),
    says: ['parameters.size.help is nothing', 'parameters.size.group is nothing'],
  },
  {
    file: './refined.mjs',
    source: partSource({ parameters: `${soundParameters}.refine((v) => v.height > v.diameter, 'too flat')` }),
    says: ['has defaults that are refused: too flat'],
  },
  {
    file: './preset-range.mjs',
    source: partSource({ more: 'presets: { huge: {\n    diameter: 300 } }' }),
    says: ['presets.huge.diameter is 300', 'from 5 to 100 mm'],
  },
  {
    file: './preset-text.mjs',
    source: partSource({ more: "presets: { big: { height: '30mm' } }" }),
    says: ['presets.big.height is the text 30mm', 'presets hold numbers'],
  },
  {
    file: './preset-key.mjs',
    source: partSource({ more: 'presets: { big: { heigth: 30 } }' }),
    says: ['presets.big.heigth', 'unknown parameter', 'did you mean height?'],
  },
  {
    file: './pieces.mjs',
    source: partSource({ more: "pieces: [{ name: 'Ring', title: 'Ring' }, { name: 'pin' }]" }),
    says: ['pieces[0].name is Ring', 'pieces[1].title is nothing'],
  },
  {
    file: './key.mjs',
    source: partSource({ more: 'pressets: {}' }),
    says: ['pressets: unknown key', 'did you mean presets?'],
  },
  {
    file: './tolerance.mjs',
    source: partSource({ more: 'tolerance: -1' }),
    says: ['tolerance is -1', 'above 0 to 1 mm'],
  },
  { file: './no-build.mjs', source: partSource({ build: 'tolerance: 0.1' }), says: ['build is missing'] },
  { file: './async.mjs', source: partSource({ build: 'async build() {}' }), says: ['build is async'] },
];

/** Refused as they are built. */
const unbuildable: readonly Case[] = [
  {
    file: './b-throws.mjs',
    source: partSource({ steps: "throw new Error('No such wood');" }),
    says: ['./b-throws.mjs:13:11, build failed: No such wood'],
  },
  {
    file: './b-type.mjs',
    source: partSource({ steps: 'stock.wood.size;' }),
    says: ['./b-type.mjs:13:', "reading 'size'"],
  },
  {
    file: './b-nothing.mjs',
    source: partSource({ build: 'build() {}' }),
    says: ['build returned nothing', 'Return'],
  },
  {
    file: './b-text.mjs',
    source: partSource({ build: "build() { return 'solid'; }" }),
    says: ['build returned solid'],
  },
  {
    file: './b-promise.mjs',
    source: partSource({ build: 'build() { return Promise.reject(new Error("late")); }' }),
    says: ['build returned a promise'],
  },
  {
    file: './b-alone.mjs',
    source: partSource({ build: 'build: (p, s, { kernel }) => kernel.box([0, 0, 0], [9, 9, 9])' }),
    says: ['build returned the solid alone'],
  },
  {
    file: './b-no-solid.mjs',
    source: partSource({ result: { solid: undefined } }),
    says: ['build returned no solid'],
  },
  {
    file: './b-null.mjs',
    source: partSource({ result: { solid: 'null' } }),
    says: ['no solid and no reason', 'Return refuse'],
  },
  {
    file: './b-nan-size.mjs',
    source: partSource({ result: { solid: 'kernel.frustum([0, 0], z0, Number(p.wood), z1, r, tolerance)' } }),
    says: ['./b-nan-size.mjs:', 'made no sound shape', 'frustum'],
  },
  {
    file: './b-nan-place.mjs',
    source: partSource({
      result: { gates: "[{ name: 'g', at: [0, 0 / 0, z1], innerDiameter: 0, outerDiameter: 9 }]" },
    }),
    says: ['gates[0].at[1] is NaN', 'Give a finite number'],
  },
  {
    file: './b-infinite.mjs',
    source: partSource({ result: { thinnestWall: '1 / 0' } }),
    says: ['thinnestWall is Infinity', 'Give a finite number'],
  },
  {
    file: './b-class.mjs',
    source: partSource({ result: { surfaces: "[{ surfaceClass: 'rind', name: 'outside' }]" } }),
    says: ['surfaces[0].surfaceClass is rind', 'Give one of flank, tip, face, bore, skin, mating'],
  },
  {
    file: './b-no-vents.mjs',
    source: partSource({ result: { vents: undefined } }),
    says: ['vents is missing', 'Give a list, which may be empty'],
  },
  {
    file: './b-key.mjs',
    source: partSource({ result: { thinestWall: '3' } }),
    says: ['thinestWall: unknown key', 'Did you mean thinnestWall?'],
  },
  {
    file: './b-gate-key.mjs',
    source: partSource({ result: { gates: "[{ name: 'g', at: [0, 0, z1], inner: 0, outerDiameter: 9 }]" } }),
    says: ['gates[0].innerDiameter is missing'],
  },
  {
    file: './b-ring.mjs',
    source: partSource({
      result: { gates: "[{ name: 'g', at: [0, 0, z1], innerDiameter: 9, outerDiameter: 9 }]" },
    }),
    says: ['gates[0].outerDiameter is not above innerDiameter'],
  },
  {
    file: './b-floats.mjs',
    source: partSource({
      result: { gates: "[{ name: 'g', at: [0, 0, z1 + 2], innerDiameter: 0, outerDiameter: 9 }]" },
    }),
    says: ['The gate place "g" hangs 2.00 mm', 'above the surface'],
  },
  {
    file: './b-beside.mjs',
    source: partSource({ result: { vents: "[{ name: 'v', at: [90, 0, z1], footDiameter: 3 }]" } }),
    says: ['The vent place "v" lies beside the part'],
  },
  {
    file: './b-finding.mjs',
    source: partSource({
      result: { findings: "[{ severity: 'bad', code: 'x', message: 'M.', remedy: 'R.' }]" },
    }),
    says: ['findings[0].severity is bad', 'Give one of stop, warn, note'],
  },
  {
    file: './b-code.mjs',
    source: partSource({ result: { findings: "[note('Bad Code', 'Message', 'Remedy')]" } }),
    says: ['findings[0].code is Bad Code', 'Use small letters'],
  },
  {
    file: './b-recursion.mjs',
    source: partSource({ before: 'const f = (n) => f(n + 1) + 1;', steps: 'f(0);' }),
    says: ['./b-recursion.mjs:2:', 'endless recursion'],
  },
  {
    file: './b-exit.mjs',
    source: partSource({ steps: 'process.exit(0);' }),
    says: ['./b-exit.mjs:13:13, build called process.exit'],
  },
  {
    file: './b-freed.mjs',
    source: partSource({
      before: 'let kept;',
      steps: 'if (kept) return { ...kept };',
      result: {
        solid:
          '(() => { let s; kernel.scope(() => { s = kernel.box([0, 0, 0], [9, 9, 9]); }); return s; })()',
      },
    }),
    says: ['a solid that was freed already'],
  },
  {
    file: './b-foreign.mjs',
    source: partSource({ result: { solid: '{ mesh: () => 3 }' } }),
    says: ['not of this kernel'],
  },
  {
    file: './b-polygons.mjs',
    source: partSource({ result: { solid: '{ polygons: [], transforms: [] }' } }),
    says: ['kernel.fromModeling'],
  },
  {
    file: './b-away.mjs',
    source: partSource({
      result: { solid: 'kernel.box([0, 0, 0], [1, 1, 1]).subtract(kernel.box([-1, -1, -1], [2, 2, 2]))' },
    }),
    says: ['./b-away.mjs:', 'made no sound shape', 'subtract'],
  },
  {
    file: './b-drawing.mjs',
    source: partSource({ result: { drawing: "{ views: [{ from: 'north' }] }" } }),
    says: ['drawing.views[0].from is north', 'Give one of +x'],
  },
  {
    file: './b-dimension.mjs',
    source: partSource({
      result: {
        dimensions: "[{ symbol: 'D', name: 'd', value: '30', unit: 'mm', axis: 'xy', method: 'm' }]",
      },
    }),
    says: ['dimensions[0].value is the text 30', 'Give a finite number'],
  },
  {
    file: './b-refuses.mjs',
    source: partSource({
      steps: "return refuse([stop('too-thin', 'It is too thin', 'Make it thicker', 'height')]);",
    }),
    says: ['It is too thin. Make it thicker. [too-thin]'],
  },
  {
    file: './b-helper.mjs',
    source: `import { half } from './helper.mjs';\n${partSource({ steps: 'half(p);' })}`,
    says: ['./helper.mjs:2:', 'No half'],
  },
];

beforeAll(() => {
  ensureBuilt();
  mkdirSync(join(cwd, 'folder.mjs'));
  for (const { file, source } of [...unloadable, ...unbuildable])
    if (source !== undefined) writeFiles(cwd, { [file]: source });
  writeFiles(cwd, { './helper.mjs': "export const half = () => {\n  throw new Error('No half');\n};\n" });
});

/** What was said in spaces as they are printed, without the breaks of lines. */
const plain = (text: string): string => text.replaceAll('\u00A0', ' ');

interface Problem {
  readonly text: string;
  readonly code: string;
  readonly part?: string;
  readonly path?: readonly string[];
}

function refusedJob(cases: readonly Case[], code: number) {
  const paths = cases.map(({ file }) => file);
  writeFiles(cwd, { 'own.yaml': jobOf(paths) });
  const ran = runBuilt(['plate', 'own.yaml', '--json'], { cwd });
  expect(ran.code, ran.err).toBe(code);
  expect(ran.err).not.toMatch(accidents);
  expect(ran.err).toContain(`Running part files, which are code: ${paths[0]}`);
  return (JSON.parse(ran.out) as { problems: readonly Problem[] }).problems;
}

/** A job tells twenty problems at most. */
const inTens = <T>(items: readonly T[]): readonly (readonly T[])[] =>
  Array.from({ length: Math.ceil(items.length / 10) }, (_, i) => items.slice(10 * i, 10 * i + 10));

describe('part files that cannot be loaded', () => {
  test.each(inTens(unloadable).map((cases) => [cases.map(({ file }) => file).join(' '), cases] as const))(
    '%s',
    (_, cases) => {
      const problems = refusedJob(cases, 2);
      for (const [i, { file, says }] of cases.entries()) {
        const own = problems.filter((p) => p.path?.join('.') === `parts.${i}.part`).map((p) => plain(p.text));
        expect(own.length, file).toBeGreaterThan(0);
        expect(own[0], file).toContain(`own.yaml:${5 + 2 * i}:11 parts[${i}].part`);
        for (const words of says) expect(own.join('\n'), file).toContain(words);
      }
    },
  );
});

test('part files whose build goes wrong are refused together, each with what its build did', () => {
  const problems = refusedJob(unbuildable, 1);
  for (const [i, { file, says }] of unbuildable.entries()) {
    const own = problems.filter((p) => p.part === `p${i}`).map((p) => plain(p.text));
    expect(own.length, file).toBeGreaterThan(0);
    for (const words of says) expect(own.join('\n'), file).toContain(words);
  }
  expect(existsSync(join(cwd, 'out'))).toBe(false);
});

describe('make tells a part file', () => {
  test.each(
    ['./broken.mjs', './default-out.mjs', './exits.mjs', './waits.mjs', './b-throws.mjs'].map(
      (file) => [file, [...unloadable, ...unbuildable].find((one) => one.file === file)!.says] as const,
    ),
  )('%s', (file, says) => {
    const ran = runBuilt(['make', file], { cwd });
    expect(ran.code).toBeGreaterThan(0);
    for (const words of says) expect(plain(ran.err)).toContain(words);
    expect(ran.err).not.toMatch(accidents);
    expect(ran.out).toBe('');
  });

  test('with its line and column as data', () => {
    const ran = runBuilt(['make', './broken.mjs', '--json'], { cwd });
    expect(JSON.parse(ran.out)).toMatchObject({
      problems: [{ code: 'part-file-syntax', file: './broken.mjs', line: 3, column: 13 }],
    });
  });
});
