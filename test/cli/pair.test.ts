import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { jobContext } from '../../cli/library.js';
import { parseJob } from '../../core/job/read-job.js';
import { temporaryFolder } from './helpers/folders.js';
import { runHere } from './helpers/in-process.js';

const cwd = temporaryFolder();
const pair = (...argv: string[]) => runHere(['pair', ...argv], { cwd });

interface Candidate {
  readonly gear: { readonly teeth: number };
  readonly mate: { readonly teeth: number };
  readonly facts: { readonly centreDistance: number };
}

describe('pair', () => {
  test('hits a centre distance exactly with helical teeth: cos β = m (z₁ + z₂) / 2a', async () => {
    const ran = await pair(
      '--ratio',
      '2.4',
      '--centre-distance',
      '64mm',
      '--module',
      '2',
      '--gear-type',
      'double-helical',
      '--face-width',
      '24',
      '--json',
    );
    expect(ran).toMatchObject({ code: 0, err: '' });
    const { candidates } = JSON.parse(ran.out) as { candidates: Candidate[] };
    expect(candidates.length).toBeGreaterThan(2);
    for (const { facts } of candidates) expect(facts.centreDistance).toBeCloseTo(64, 6);
  });

  test('a plain spur pair has the handbook’s centre distance: 2 × (20 + 40) / 2 = 60 mm', async () => {
    const ran = await pair(
      '--teeth',
      '20',
      '--mate-teeth',
      '40',
      '--module',
      '2',
      '--no-profile-shift',
      '--json',
    );
    const { candidates } = JSON.parse(ran.out) as { candidates: Candidate[] };
    expect(candidates[0]?.facts.centreDistance).toBeCloseTo(60, 9);
  });

  test.each(['spur', 'helical', 'double-helical'])(
    '%s: the job it writes is read without a complaint and makes mates',
    async (type) => {
      const file = `${type}.yaml`;
      const ran = await pair(
        '--ratio',
        '3',
        '--module',
        '2.5',
        '--gear-type',
        type,
        '--backlash',
        '0.15mm',
        '--job',
        file,
      );
      expect(ran).toMatchObject({ code: 0, err: '' });
      const text = readFileSync(join(cwd, file), 'utf8');
      const reading = parseJob(text, jobContext(file));
      if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
      const [one, two] = reading.job.parts.map((p) => p.parameters);
      expect(one!.module).toBe(2.5);
      if (type !== 'spur') {
        const hand = type === 'helical' ? 'hand' : 'lowerHand';
        expect([one![hand], two![hand]].sort()).toEqual(['left', 'right']);
        expect(one!.helixAngle).toBe(two!.helixAngle);
      }
      // What is printed for pasting is what the file holds.
      expect(parse(ran.out.slice(ran.out.indexOf('parts:'), ran.out.indexOf('Wrote')))).toEqual({
        parts: parse(text).parts,
      });
      for (const line of ran.out.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
    },
  );

  test('never writes over a file', async () => {
    await pair('--ratio', '2', '--module', '2', '--job', 'kept.yaml');
    const before = readFileSync(join(cwd, 'kept.yaml'), 'utf8');
    const ran = await pair('--ratio', '3', '--module', '2', '--job', 'kept.yaml');
    expect(ran.code).toBe(1);
    expect(ran.err).toContain('it is there already');
    expect(readFileSync(join(cwd, 'kept.yaml'), 'utf8')).toBe(before);
    expect((await pair('--ratio', '3', '--module', '2', '--job', 'no/where.yaml')).err).toContain(
      'its folder is not there',
    );
    expect(existsSync(join(cwd, 'no'))).toBe(false);
  });

  test.each<[string[], 1 | 2, RegExp]>([
    [['--ratio', '3'], 1, /Nothing says how large/],
    [['--module', '2'], 1, /Neither tooth numbers nor a ratio/],
    [['--ratio', '2', '--centre-distance', '50', '--module', '4', '--no-profile-shift'], 1, /52 mm too much/],
    [['--ratio', '-2'], 2, /--ratio is -2/],
    [['--ratio', '2', '--modul', '2'], 2, /did you mean --module\?/],
    [['--ratio', '2', '--module', '2', '--choose', '99'], 2, /--choose is 99; from 1 to/],
    [['--ratio', '2', '--module', '2', 'more'], 2, /"more" is not understood/],
    [['--ratio', '2', '--module', '2', '--diametral-pitch', '10'], 1, /Both a module and a diametral pitch/],
  ])('%j: exit %i, in words', async (argv, code, message) => {
    const ran = await pair(...argv);
    expect(ran).toMatchObject({ code, out: '' });
    expect(ran.err).toMatch(message);
  });

  test('in inches and diametral pitch', async () => {
    const ran = await pair(
      '--units',
      'in',
      '--ratio',
      '2',
      '--diametral-pitch',
      '10',
      '--face-width',
      '3/4in',
    );
    expect(ran.out).toContain('DP 10');
    expect(ran.out).toMatch(/centre distance a +\d+\.\d+ in/);
  });
});
