import { readdirSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { temporaryFolder } from './helpers/folders.js';
import { accidents, runHere } from './helpers/in-process.js';

const cwd = temporaryFolder();

interface Row {
  readonly argv: string;
  /** The whole message, or words in it. */
  readonly says: string | readonly string[];
  readonly code: string;
  readonly option?: string;
}

/** Spaces part the arguments; `_` stands for a space in one, `∅` for an empty one. */
const split = (argv: string): readonly string[] =>
  argv.split(' ').map((word) => word.replaceAll('_', ' ').replace('∅', ''));

const spur = (options: string): string => `make spur-gear ${options}`;

const rows: readonly Row[] = [
  // Commands
  {
    argv: 'mak',
    code: 'unknown-command',
    says: ['"mak"', 'did you mean make?', 'make, plate, examine, pair, starter, log, gallery, list'],
  },
  { argv: 'maek spur-gear', code: 'unknown-command', says: ['did you mean make?'] },
  {
    argv: 'constructor',
    code: 'unknown-command',
    says: ['"constructor"', 'commands are make, plate, examine, pair, starter, log, gallery, list'],
  },
  { argv: '--verison', code: 'no-command', says: ['command comes first', '--verison'] },
  { argv: 'help mkae', code: 'unknown-command', says: ['did you mean make?'] },
  // Parts
  {
    argv: 'make helical-geer',
    code: 'unknown-part',
    says: 'there is no part called "helical-geer"; did you mean helical-gear?',
  },
  { argv: 'make foot.STL', code: 'no-part', says: ['make mesh --file foot.STL'] },
  { argv: 'make hatchpull', code: 'unknown-part', says: ['did you mean hatch-pull?'] },
  { argv: 'make teapot', code: 'unknown-part', says: ['"teapot"', 'parts are spur-gear'] },
  { argv: 'make valueOf', code: 'unknown-part', says: ['there is no part called'] },
  {
    argv: 'make --units in spur-gear',
    code: 'no-part',
    says: ['the part comes first', 'parts are spur-gear'],
  },
  // Options
  {
    argv: spur('--faceWidht 20'),
    code: 'unknown-option',
    says: 'unknown option --faceWidht; did you mean --face-width?',
  },
  { argv: spur('--tooth 20'), code: 'unknown-option', says: ['did you mean --teeth?'] },
  { argv: spur('-teeth 20'), code: 'unknown-option', says: 'unknown option -teeth; did you mean --teeth?' },
  { argv: spur('--stock-flank 0.1'), code: 'unknown-option', says: ['did you mean --stock.flank?'] },
  { argv: spur('--stock 0.1'), code: 'unknown-option', says: ['unknown option --stock;'] },
  {
    argv: spur('--helix-angle 20'),
    code: 'unknown-option',
    says: ['see patternwright make spur-gear --help'],
  },
  { argv: spur('--constructor 3'), code: 'unknown-option', says: ['unknown option --constructor'] },
  { argv: spur('--get-yargs-completions'), code: 'unknown-option', says: ['unknown option'] },
  { argv: spur('--no-such'), code: 'unknown-option', says: ['unknown option --no-such'] },
  {
    argv: spur('--no-bore'),
    code: 'wrong-type',
    option: 'bore',
    says: ['--bore needs a value', 'from 0 to'],
  },
  { argv: spur('--json=yes'), code: 'wrong-type', option: 'json', says: ['switch', '--no-json'] },
  {
    argv: spur('20'),
    code: 'unreadable',
    says: '"20" is not understood; options start with --, and a value with a space is put in quotes',
  },
  { argv: spur('--bore 1 1/2in'), code: 'unreadable', says: ['"1/2in" is not understood', 'quotes'] },
  { argv: spur('--bore 12mm -- --teeth'), code: 'unreadable', says: ['"--teeth" is not understood'] },
  // Values that are missing, twice or odd
  {
    argv: spur('--teeth'),
    code: 'missing',
    option: 'teeth',
    says: '--teeth has no value; give a whole number from 6 to 200',
  },
  { argv: spur('--teeth --module 2'), code: 'missing', option: 'teeth', says: ['--teeth has no value'] },
  { argv: spur('--teeth='), code: 'missing', option: 'teeth', says: ['--teeth is empty', 'from 6 to 200'] },
  { argv: spur('--bore _'), code: 'missing', option: 'bore', says: ['--bore is empty'] },
  {
    argv: spur('--teeth 20 --teeth 20'),
    code: 'given-twice',
    option: 'teeth',
    says: '--teeth is given twice; give it once',
  },
  {
    argv: spur('--teeth 20 --teeth 21 --teeth=22'),
    code: 'given-twice',
    option: 'teeth',
    says: ['given 3 times'],
  },
  {
    argv: spur('--faceWidth 20 --face-width 21'),
    code: 'given-twice',
    option: 'face-width',
    says: ['--face-width is given twice'],
  },
  { argv: spur('--out ∅'), code: 'missing', option: 'out', says: ['--out is empty', 'give a folder'] },
  { argv: spur('--out'), code: 'missing', option: 'out', says: '--out has no value; give a folder' },
  { argv: spur('--name a\u0007b'), code: 'unreadable', option: 'name', says: ['control character'] },
  // Values out of range or of the wrong kind
  {
    argv: spur('--teeth 5'),
    code: 'out-of-range',
    option: 'teeth',
    says: '--teeth is 5; a whole number from 6 to 200',
  },
  { argv: spur('--teeth 20.5'), code: 'not-whole', option: 'teeth', says: ['is 20.5', 'whole number'] },
  { argv: spur('--teeth -20'), code: 'out-of-range', option: 'teeth', says: ['is -20'] },
  { argv: spur('--teeth 1e400'), code: 'unreadable', option: 'teeth', says: ['too large'] },
  { argv: spur('--teeth many'), code: 'unreadable', option: 'teeth', says: ['number'] },
  {
    argv: spur('--thinning -0.1mm'),
    code: 'out-of-range',
    option: 'thinning',
    says: ['is -0.1mm', 'from 0 to 2 mm'],
  },
  { argv: spur('--thinning=-.1'), code: 'out-of-range', option: 'thinning', says: ['is -.1'] },
  {
    argv: spur('--profile-shift -0.9'),
    code: 'out-of-range',
    option: 'profile-shift',
    says: ['is -0.9', 'from -0.8 to 1'],
  },
  { argv: spur('--bore 1/2'), code: 'unreadable', option: 'bore', says: ['fraction without a unit'] },
  { argv: spur('--bore 1,5'), code: 'unreadable', option: 'bore', says: ['comma'] },
  { argv: spur('--bore 12furlongs'), code: 'unreadable', option: 'bore', says: ['furlongs', 'mm'] },
  { argv: spur('--bore 0x10'), code: 'unreadable', option: 'bore', says: ['decimal'] },
  { argv: spur('--bore true'), code: 'unreadable', option: 'bore', says: ['--bore'] },
  {
    argv: spur('--units in --bore 20'),
    code: 'out-of-range',
    option: 'bore',
    says: '--bore is 20; from 0 to 7.874 in',
  },
  { argv: spur('--pressure-angle 20mm'), code: 'unreadable', option: 'pressure-angle', says: ['no angle'] },
  { argv: spur('--hub side'), code: 'unknown-choice', option: 'hub', says: ['is side', 'one of none, one'] },
  {
    argv: spur('--rackProfile E'),
    code: 'unknown-choice',
    option: 'rack-profile',
    says: ['is E', 'one of A, B, C, D'],
  },
  {
    argv: spur('--growth 0.98'),
    code: 'out-of-range',
    option: 'growth',
    says: ['pattern size / casting size'],
  },
  { argv: spur('--growth 2.1%'), code: 'unreadable', option: 'growth', says: ['for 2.1% write 1.021'] },
  { argv: spur('--quantity 0'), code: 'out-of-range', option: 'quantity', says: ['from 1 to 1000'] },
  { argv: spur('--stock.flank -1'), code: 'out-of-range', option: 'stock.flank', says: ['from 0 to 10 mm'] },
  {
    argv: spur('--bed.margin 100 --bed.width 200'),
    code: 'out-of-range',
    option: 'bed.margin',
    says: ['no room'],
  },
  {
    argv: spur('--printerCorrection.xy 2'),
    code: 'out-of-range',
    option: 'printer-correction.xy',
    says: ['from 0.9 to 1.1'],
  },
  {
    argv: spur('--alloy tin-bronse'),
    code: 'unknown-alloy',
    option: 'alloy',
    says: ['did you mean tin-bronze?'],
  },
  {
    argv: spur('--investment gypsum'),
    code: 'unknown-investment',
    option: 'investment',
    says: ['gypsum-bonded'],
  },
  {
    argv: 'make hatch-pull --preset lokcer',
    code: 'unknown-preset',
    option: 'preset',
    says: ['did you mean locker?'],
  },
  { argv: spur('--name ../gear'), code: 'unsafe-name', option: 'name', says: ['is a path'] },
  { argv: spur('--name plates'), code: 'unsafe-name', option: 'name', says: ['print plates'] },
  { argv: spur('--name Gear_One'), code: 'unsafe-name', option: 'name', says: ['lower-case'] },
  { argv: spur('--units furlong'), code: 'unknown-choice', option: 'units', says: ['one of mm, in'] },
  { argv: spur('--degrees K'), code: 'unknown-choice', option: 'degrees', says: ['one of C, F'] },
  {
    argv: spur(`--bore ${'9'.repeat(100_000)}`),
    code: 'unreadable',
    option: 'bore',
    says: ['100000 characters'],
  },
  // plate and list
  { argv: 'plate', code: 'missing', says: ['plate needs a job file'] },
  { argv: 'plate one.yaml two.yaml', code: 'too-many', says: ['"two.yaml" is one file too many'] },
  { argv: 'plate one.yaml --teeth 20', code: 'unknown-option', says: ['see patternwright plate --help'] },
  { argv: 'plate one.yaml --unit in', code: 'unknown-option', says: ['did you mean --units?'] },
  { argv: 'plate one.yaml --units inch', code: 'unknown-choice', option: 'units', says: ['one of mm, in'] },
  { argv: 'list aloys', code: 'unknown-list', says: ['did you mean alloys?'] },
  {
    argv: 'list everything',
    code: 'unknown-list',
    says: ['one of parts, alloys, investments, flasks, plastics'],
  },
  { argv: 'list toString', code: 'unknown-list', says: ['"toString"'] },
  { argv: 'list parts alloys', code: 'too-many', says: ['"alloys" is one word too many'] },
  { argv: 'list --units inn', code: 'unknown-choice', option: 'units', says: ['did you mean in?'] },
  { argv: 'list --strict', code: 'unknown-option', says: ['see patternwright list --help'] },
];

/** Where one more option can stand whatever is wrong with the others. */
const placeOfOptions = (argv: readonly string[]): number =>
  argv[0] === 'make' ? 2 : argv[0] === 'plate' || argv[0] === 'list' ? 1 : argv.length;

describe('requests that are wrong', () => {
  test('the table has at least thirty of make', () => {
    expect(rows.filter((row) => row.argv.startsWith('make')).length).toBeGreaterThanOrEqual(30);
    expect(new Set(rows.map((row) => row.argv)).size).toBe(rows.length);
  });

  test.each(rows.map((row) => [row.argv.slice(0, 60), row] as const))('%s', async (_, row) => {
    const argv = split(row.argv);
    const ran = await runHere(argv, { cwd });
    expect(ran).toMatchObject({ code: 2, out: '' });
    const lines = ran.err.split('\n');
    expect(lines).toHaveLength(2);
    expect(lines[1]).toBe('');
    expect(lines[0]!.length).toBeLessThan(400);
    expect(ran.err).not.toMatch(accidents);
    if (typeof row.says === 'string') expect(lines[0]).toBe(row.says);
    else for (const words of row.says) expect(lines[0]).toContain(words);
    expect(readdirSync(cwd)).toEqual([]);

    if (row.option === 'json') return;
    const asJson = await runHere(argv.toSpliced(placeOfOptions(argv), 0, '--json'), { cwd });
    expect(asJson).toMatchObject({ code: 2, err: ran.err });
    const { problems } = JSON.parse(asJson.out) as { problems: Record<string, unknown>[] };
    expect(problems).toHaveLength(1);
    expect(problems[0]).toMatchObject({ text: lines[0], code: row.code });
    expect(problems[0]!.option).toBe(row.option);
    expect(lines[0]).toContain(String(problems[0]!.message));
    expect(lines[0]).toContain(String(problems[0]!.remedy));
  });
});

test('several wrong options are told at once, each with its option', async () => {
  const ran = await runHere([...split(spur('--teeth 5 --bore 900 --alloy x')), '--json'], { cwd });
  expect(ran.code).toBe(2);
  const { problems } = JSON.parse(ran.out) as { problems: { option: string }[] };
  expect(problems.map((p) => p.option).sort()).toEqual(['alloy', 'bore', 'teeth']);
  expect(ran.err.trim().split('\n')).toHaveLength(3);
});
