import { describe, expect, test } from 'vitest';
import { listFields } from '../../core/part/help.js';
import type { LengthUnit } from '../../core/units/index.js';
import { parts } from '../../generators/index.js';
import { temporaryFolder } from './helpers/folders.js';
import { runHere } from './helpers/in-process.js';

const cwd = temporaryFolder();
const help = async (...argv: string[]): Promise<string> => {
  const ran = await runHere(argv, { cwd });
  expect(ran).toMatchObject({ code: 0, err: '' });
  return ran.out;
};

/** One line, as text was before it was broken. */
const flat = (text: string): string => text.replace(/\s+/g, ' ');

describe('help pages', () => {
  const pages = [
    ['--help'],
    ['-h'],
    ['help'],
    ['make', '--help'],
    ['help', 'make'],
    ['plate', '--help'],
    ['list', '--help'],
    ...parts.map((part) => ['make', part.name, '--help']),
    ...parts.map((part) => ['make', part.name, '--units', 'in', '-h']),
  ];

  test.each(pages.map((argv) => [argv.join(' '), argv] as const))(
    '%s: 80 columns, no leftovers',
    async (_, argv) => {
      const text = await help(...argv);
      for (const line of text.split('\n')) expect([...line].length, line).toBeLessThanOrEqual(80);
      expect(text).toMatch(/^patternwright /);
      expect(text.endsWith('\n')).toBe(true);
      expect(text).not.toMatch(/undefined|\[object|NaN|\[string\]|\n\n\n| \n/);
    },
  );
});

describe.each(parts.map((part) => [part.name, part] as const))('make %s --help', (_, part) => {
  test.each(['mm', 'in'] as const)(
    'each parameter in %s with help, range, default under its heading',
    async (unit: LengthUnit) => {
      const text = await help('make', part.name, '--units', unit, '--help');
      for (const field of listFields(part.parameters, unit)) {
        const section = text.split('\n\n').find((s) => s.startsWith(`${field.group}:`)) ?? '';
        const start = section.indexOf(`\n  --${field.option}${field.kind === 'flag' ? '' : ' <'}`);
        expect(start, field.option).toBeGreaterThan(0);
        const next = section.indexOf('\n  --', start + 5);
        const entry = flat(section.slice(start, next < 0 ? undefined : next));
        const kebab = (s: string): string => s.replace(/[a-z](?=[A-Z])/g, '$&-').toLowerCase();
        expect(kebab(entry)).toContain(kebab(flat(field.help)).slice(0, 30));
        expect(entry).toContain(field.range);
        if (field.default !== '')
          expect(kebab(entry).replaceAll('--', '')).toContain(`default: ${kebab(field.default)}`);
        if (field.kind === 'length') expect(entry).toContain(`<${unit}>`);
      }
    },
  );

  test('has the settings of a job and of the output too', async () => {
    const text = await help('make', part.name, '--help');
    for (const option of [
      'alloy',
      'investment',
      'growth',
      'quantity',
      'tolerance',
      'layer-height',
      'stock.flank',
      'bed.width',
      'printer-correction.xy',
      'out',
      'units',
      'degrees',
      'json',
      'quiet',
      'strict',
    ])
      expect(text).toContain(`\n  --${option}`);
  });
});

test('parameters that a default mentions are named as options', async () => {
  const text = flat(await help('make', 'double-helical-gear', '--help'));
  expect(text).toContain('default: a fifth of --face-width');
  expect(text).not.toMatch(/(?<!--)faceWidth|diametralPitch|rackProfile/);
});

test('plate --help tells every key of a job, and its example is a job', async () => {
  const text = await help('plate', '--help');
  const { jobWords, jobGroups, partWords } = await import('../../core/job/job-schema.js');
  for (const key of [...jobWords, ...jobGroups.filter((g) => g !== 'parts'), ...partWords])
    expect(text).toMatch(new RegExp(`^ {2}(.*, )?${key}\\b`, 'm'));
  const { parseJob } = await import('../../core/job/read-job.js');
  const { jobContext } = await import('../../generators/job-context.js');
  expect(parseJob(text.split('Example:\n')[1]!, jobContext('example'))).toMatchObject({ ok: true });
});

test('make --help names every part', async () => {
  const text = await help('make', '--help');
  for (const part of parts) expect(text).toContain(`\n  ${part.name} `);
});

test('--version prints the version of the package', async () => {
  const { default: facts } = await import('../../package.json', { with: { type: 'json' } });
  expect(await help('--version')).toBe(`${facts.version}\n`);
});

test('without a command or part: how to go on, on standard error, exit 2', async () => {
  for (const argv of [[], ['make']]) {
    const ran = await runHere(argv, { cwd });
    expect(ran).toMatchObject({ code: 2, out: '' });
    expect(ran.err).toContain('--help');
  }
});
