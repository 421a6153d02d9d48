import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import type { Summary } from '../../core/job/summary.js';
import { listing, temporaryFolder } from './helpers/folders.js';
import { accidents, type Ran, runHere } from './helpers/in-process.js';

const cwd = temporaryFolder();

/** A small gear, coarse enough to be quick. */
const gear = [
  'make',
  'spur-gear',
  '--teeth',
  '17',
  '--face-width',
  '8',
  '--bore',
  '6mm',
  '--tolerance',
  '0.1',
];

const summaryOf = async (argv: readonly string[]): Promise<Summary> => {
  const ran = await runHere([...argv, '--json'], { cwd });
  expect(ran.err).toBe('');
  expect(ran.code).toBe(0);
  return JSON.parse(ran.out) as Summary;
};
const parametersOf = async (...options: string[]) =>
  (await summaryOf([...gear, '--out', 'values', ...options])).parts[0]!.parameters;

test('make writes the whole folder and says what to open first, once', async () => {
  const ran = await runHere([...gear, '--out', 'made/gear/'], { cwd });
  expect(ran).toMatchObject({ code: 0, err: '' });
  expect(listing(join(cwd, 'made/gear')).map((line) => line.split(' ')[0])).toEqual([
    'plates/plate-1.3mf',
    'plates/plate-1.stl',
    'plates/plate-1.svg',
    'spur-gear/casting.stl',
    'spur-gear/drawing.svg',
    'spur-gear/freeze-section.svg',
    'spur-gear/freeze-surface.svg',
    'spur-gear/gated.3mf',
    'spur-gear/gated.stl',
    'spur-gear/part.stl',
    'spur-gear/pattern.stl',
    'spur-gear/preview.png',
    'summary.json',
    'traveller.html',
  ]);
  expect(ran.out.endsWith('\nWrote made/gear/\nOpen first: made/gear/traveller.html\n')).toBe(true);
  expect(ran.out.match(/traveller\.html/g)).toHaveLength(1);
  expect(ran.out).not.toMatch(accidents);
  expect(readdirSync(join(cwd, 'made'))).toEqual(['gear']);
});

test('the folder is out/ and the name of the job if not said', async () => {
  expect(await runHere([...gear, '--name', 'hand-wheel', '--quiet'], { cwd })).toEqual({
    code: 0,
    out: '',
    err: '',
  });
  expect(existsSync(join(cwd, 'out/hand-wheel/hand-wheel/gated.stl'))).toBe(true);
});

test('--json prints the summary that is written, and nothing else', async () => {
  const ran = await runHere([...gear, '--out', 'json', '--json', '--quiet'], { cwd });
  expect(ran).toMatchObject({ code: 0, err: '' });
  expect(ran.out).toBe(readFileSync(join(cwd, 'json/summary.json'), 'utf8'));
});

describe('values of options', () => {
  test('negative numbers, with or without an equals sign', async () => {
    expect(await parametersOf('--profile-shift', '-0.3')).toMatchObject({ profileShift: -0.3 });
    expect(await parametersOf('--profile-shift=-.3')).toMatchObject({ profileShift: -0.3 });
  });

  test('spelled as in a plate job', async () => {
    expect(await parametersOf('--profileShift', '0.2', '--pressureAngle=25deg')).toMatchObject({
      profileShift: 0.2,
      pressureAngle: (25 * Math.PI) / 180,
    });
  });

  test('inches: bare numbers and fractions, and those with a unit of their own', async () => {
    // An inch is 25.4 mm exactly (international yard and pound agreement of 1959).
    const inches = ['make', 'spur-gear', '--tolerance', '0.1mm', '--out', 'inches', '--units', 'in'];
    const { parameters } = (
      await summaryOf([
        ...inches,
        '--bore',
        '1/2in',
        '--face-width',
        '0.75',
        '--hub',
        'one',
        '--hub-diameter',
        '1-1/4in',
        '--hubLength',
        '10mm',
      ])
    ).parts[0]!;
    expect(parameters.bore).toBeCloseTo(12.7, 12);
    expect(parameters.faceWidth).toBeCloseTo(19.05, 12);
    expect(parameters.hubDiameter).toBeCloseTo(31.75, 12);
    expect(parameters.hubLength).toBe(10);
    const ran = await runHere([...inches, '--degrees', 'F'], { cwd });
    expect(ran.out).toContain('size, in');
    expect(ran.out).toContain('°F');
    // What a finding says in °C it says again in °F.
    expect(ran.out.replace(/\s+/g, ' ')).not.toMatch(/°C(?! \(\d+ °F\))/);
  });

  test('stock, growth, alloy, quantity, bed and printer correction reach the job', async () => {
    const summary = await summaryOf([
      ...gear,
      ...['--out', 'settings', '--stock.flank', '0.15mm', '--growth', '1.021', '--alloy', 'silicon-bronze'],
      ...['--quantity', '2', '--bed.width', '180', '--printer-correction.z', '1.002'],
    ]);
    expect(summary.bed.width).toBe(180);
    expect(summary.tolerance).toBe(0.1);
    const part = summary.parts[0]!;
    expect(part).toMatchObject({
      quantity: 2,
      alloy: 'silicon-bronze',
      printerCorrection: { xy: 1, z: 1.002 },
    });
    expect(part.growth.value).toBe(1.021);
    expect(part.stock.stock.flank).toBe(0.15);
  });

  test('a preset, and an option beside it', async () => {
    const pull = ['make', 'hatch-pull', '--preset', 'locker', '--tolerance', '0.1', '--out', 'pull'];
    expect((await summaryOf(pull)).parts[0]!.parameters).toMatchObject({ size: 25 });
    expect((await summaryOf([...pull, '--size', '28'])).parts[0]!.parameters).toMatchObject({ size: 28 });
  });
});

describe('a job that cannot be made', () => {
  const tooWide = ['make', 'spur-gear', '--teeth', '20', '--module', '1', '--bore', '40'];
  const refused = (ran: Ran): void => {
    expect(ran.code).toBe(1);
    const lines = ran.err.trimEnd().split('\n');
    expect(lines.at(-1)).toBe('Nothing was written.');
    expect(lines[0]).toMatch(/^stop: spur-gear: The bore .+\. .+\. \[bore-through-root\]$/);
    expect(ran.err).not.toMatch(accidents);
  };

  test('is refused with its findings, exit 1, nothing written', async () => {
    const ran = await runHere([...tooWide, '--out', 'refused'], { cwd });
    refused(ran);
    expect(ran.out).toBe('');
    expect(existsSync(join(cwd, 'refused'))).toBe(false);
  });

  test('leaves the output that is there', async () => {
    await runHere([...gear, '--out', 'kept', '--quiet'], { cwd });
    const before = listing(join(cwd, 'kept'));
    refused(await runHere([...tooWide, '--out', 'kept', '--quiet'], { cwd }));
    expect(listing(join(cwd, 'kept'))).toEqual(before);
  });

  test('is JSON with --json', async () => {
    const ran = await runHere([...tooWide, '--out', 'refused', '--json'], { cwd });
    refused(ran);
    expect(JSON.parse(ran.out)).toMatchObject({
      problems: [
        {
          code: 'bore-through-root',
          severity: 'stop',
          part: 'spur-gear',
          parameters: ['bore', 'teeth', 'module'],
        },
      ],
    });
  });
});

describe('--strict', () => {
  const undercut = ['make', 'spur-gear', '--teeth', '14', '--profile-shift', '-0.3', '--tolerance', '0.1'];

  test('refuses a job with warnings; without it the job is made', async () => {
    const strict = await runHere([...undercut, '--out', 'strict', '--strict', '--json'], { cwd });
    expect(strict.code).toBe(1);
    expect(strict.err).toMatch(/^warn: spur-gear: The teeth are undercut .+ \[undercut\]$/m);
    expect(strict.err.endsWith('Nothing was written. --strict refuses warnings.\n')).toBe(true);
    expect(existsSync(join(cwd, 'strict'))).toBe(false);
    const { problems } = JSON.parse(strict.out) as { problems: { severity: string; code: string }[] };
    expect(problems.every((p) => p.severity === 'warn')).toBe(true);
    const lax = await runHere([...undercut, '--out', 'strict', '--json'], { cwd });
    expect(lax.code).toBe(0);
  });

  test('counts every warning that the console tells, wherever in the summary it stands', async () => {
    const told = await runHere([...undercut, '--out', 'told'], { cwd });
    const strict = await runHere([...undercut, '--out', 'strict2', '--strict'], { cwd });
    const codes = (text: string) => [...text.matchAll(/\[([a-z-]+)\]/g)].map((m) => m[1]).sort();
    const warnings = told.out.split(/\n {2}(?=stop|warn|note)/).filter((entry) => entry.startsWith('warn'));
    expect(warnings.length).toBeGreaterThan(0);
    expect(codes(strict.err)).toEqual(codes(warnings.join('\n')));
  });
});

describe('progress', () => {
  beforeEach(() => {
    vi.stubEnv('LC_ALL', 'C.UTF-8');
    vi.stubEnv('TERM', 'xterm');
  });
  afterEach(() => vi.unstubAllEnvs());

  test('is shown on a terminal and cleared', async () => {
    const ran = await runHere([...gear, '--out', 'progress'], { cwd, isTerminal: true });
    expect(ran.err).toContain('making parts');
    // With the bar or before it: which is drawn depends on how fast the machine is.
    expect(ran.err).toMatch(/freezing moulds {2}(?:[█▉▊▋▌▍▎▏░]+ {2})?spur-gear/);
    expect(ran.err.endsWith('\r\u001b[J')).toBe(true);
    expect(ran.out).not.toContain('\u001b');
  });

  test('is cleared before the message of a refusal', async () => {
    const ran = await runHere(['make', 'spur-gear', '--bore', '60', '--out', 'progress'], {
      cwd,
      isTerminal: true,
    });
    expect(ran.err).toContain('\r\u001b[Jstop: spur-gear');
  });

  test('is not shown in a pipe or with --quiet', async () => {
    expect((await runHere([...gear, '--out', 'progress'], { cwd })).err).toBe('');
    const quiet = await runHere([...gear, '--out', 'progress', '--quiet'], { cwd, isTerminal: true });
    expect(quiet).toEqual({ code: 0, out: '', err: '' });
  });
});
