import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { parseJob } from '../../core/job/read-job.js';
import { jobContext } from '../../generators/job-context.js';
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

  test.each<[string, 1 | 2, RegExp]>([
    ['--torque abc', 2, /--torque: "abc" does not start with a number/],
    ['--torque -3', 2, /--torque is -3; give more than 0/],
    ['--speed 10kW', 2, /no speed of rotation/],
    ['--power 60W', 1, /without a speed or torque/],
    ['--power 60W --crank-radius 200', 1, /person at the crank gives the torque/],
    ['--torque 3 --power 50 --speed 20', 1, /two of them give the third/],
    ['--backlash as-cats', 2, /give from 0 to 3 mm, or as-cast/],
    ['--backlash 5', 2, /--backlash is 5/],
    ['--tooth-grade 15', 2, /--tooth-grade is 15; a whole number from 3 to 12/],
    ['--alloy tin-bronz', 2, /did you mean tin-bronze/],
    ['--mate-alloy lead', 2, /--mate-alloy is lead/],
    ['--mate rak', 2, /did you mean rack/],
    ['--mate rack', 1, /The ratio asked for is 2 on a rack/],
    ['--mate ring --gear-type double-helical', 1, /straight or helical only/],
    ['--travel 300', 1, /there is no rack/],
    ['--teeth 20 --mate-teeth 60', 1, /33\.3 %|50 % off the 2 asked for/],
    ['--safety-factor 0.5', 2, /--safety-factor is 0.5/],
  ])('--ratio 2 --module 2 %s: exit %i, in words', async (options, code, message) => {
    const ran = await pair('--ratio', '2', '--module', '2', ...options.split(' '));
    expect(ran).toMatchObject({ code, out: '' });
    expect(ran.err).toMatch(message);
  });

  test('help fits a terminal and names every option', async () => {
    const { out } = await pair('--help');
    for (const line of out.split('\n')) expect([...line].length).toBeLessThanOrEqual(80);
    for (const option of ['mate', 'backlash', 'torque', 'crank-radius', 'tooth-grade', 'keep-mate', 'travel'])
      expect(out).toContain(`--${option} `);
    expect(out).toContain('not a rating to a design code');
  });
});

/** What a user would ask for, and what must be in the answer. */
const scenarios: readonly [string, string, readonly (string | RegExp)[]][] = [
  [
    'a pinion for a wheel that is there',
    '--teeth 13 --mate-teeth 52 --module 2 --centre-distance 65mm --keep-mate --bore 8mm --crank-radius 120mm',
    [
      /undercut +yes/,
      'All of it on gear 1: its mate is there already.',
      'One person at a 120 mm crank',
      'bore: 8mm',
    ],
  ],
  [
    'inch gears at 14.5°',
    '--units in --diametral-pitch 8 --pressure-angle 14.5 --teeth 24 --mate-teeth 60 --face-width 1in --speed 100 --power 1/4hp --no-profile-shift',
    // d = z / P, a = (24 + 60) / 16; V = π d n / 12; T = 63025 hp / n.
    [
      /centre distance a +5\.25 in/,
      'DP 8',
      /78\.5 ft\/min/,
      'Forces at 158 lbf·in',
      /tangential F_t +105 lbf/,
      'psi',
    ],
  ],
  [
    'three to one at 110 mm, helical',
    '--ratio 3 --centre-distance 110 --gear-type helical --torque 20Nm --speed 60 --face-width 30',
    [
      /centre distance a +110 mm/,
      /overlap ratio ε_β +\d/,
      /axial F_a +\d+ N/,
      'left-hand gear 1 is',
      '% of the allowable',
    ],
  ],
  [
    'double-helical, as cast',
    '--ratio 2.4 --centre-distance 64mm --module 2 --gear-type double-helical --backlash as-cast --centre-grade 6',
    [
      '0 net',
      /each half +F_t \d+ N, F_r \d+ N, F_a \d+ N/,
      'DCTG 7 for the teeth, DCTG 6 for the',
      /half the DCTG, teeth of gear 2/,
      'flank: 0',
    ],
  ],
  [
    'a ring for a capstan',
    '--mate ring --ratio 5 --largest-diameter 180 --crank-radius 250 --backlash 0.3mm --backlash-kind centre-distance',
    [
      /in a ring of \d+ teeth/,
      /axes may open before it binds +0\.3 mm/,
      'part: ring-gear',
      'weaker in bending',
      /assembly +along a radius/,
    ],
  ],
  [
    'a rack for a sluice',
    '--mate rack --module 4 --travel 600mm --crank-radius 300mm --thinning-split wheel',
    [
      /on a rack of \d+, in \d pieces of \d+/,
      /travel in one turn +\d+/,
      /push along the rack +\d+ N/,
      'quantity: ',
      'All of it on the rack',
    ],
  ],
];

describe('as a user would', () => {
  test.each(scenarios)('%s', async (_, options, wanted) => {
    const ran = await pair(...options.split(' '));
    expect(ran).toMatchObject({ code: 0, err: '' });
    for (const text of wanted) expect(ran.out).toMatch(text);
    for (const line of ran.out.split('\n')) expect([...line].length).toBeLessThanOrEqual(80);
    expect(ran.out).not.toMatch(/undefined|NaN|Infinity|null/);
    for (const row of [
      'contact ratio ε_α',
      'total contact ratio ε_γ',
      'specific sliding, root',
      'tip thickness',
      'undercut',
      'tip to the other',
      'contact below its involute',
      'other’s tip in its',
      'circumferential j_wt',
      'Lewis form factor',
      'allowable torque',
    ])
      expect(ran.out).toContain(row);
    // It says what it is not.
    expect(ran.out.replace(/\s+/g, ' ')).toMatch(
      /not a rating to a design code.*leaves out.*qualified engineer/,
    );
  });

  test.each(scenarios)(
    '%s: every number in JSON, and a job that is read without a complaint',
    async (name, options) => {
      const file = `${name.replace(/[^a-z]+/g, '-')}.yaml`;
      const ran = await pair(...options.split(' '), '--json', '--job', file);
      expect(ran.code).toBe(0);
      const { candidates, parts, notes, caveats } = JSON.parse(ran.out);
      for (const c of candidates) {
        expect(c.load.strength.gearTorque).toBeGreaterThan(0);
        expect(c.load.forces.tangential).toBeGreaterThan(0);
        expect(c.facts.contactRatio + c.facts.overlapRatio).toBeGreaterThanOrEqual(1);
        expect(c.backlash.circumferential).toBeGreaterThan(0);
        expect(c.reasons.length).toBeGreaterThan(1);
      }
      expect(caveats.length).toBeGreaterThan(2);
      const reading = parseJob(readFileSync(join(cwd, file), 'utf8'), jobContext(file));
      if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
      expect(reading.job.parts.length).toBe(parts.length);
      // One more where the larger part wants room.
      expect(reading.job.notes.slice(0, notes.length)).toEqual(notes);
      expect(notes[0]).toMatch(/backlash .* contact ratio ε_α/);
    },
  );
});

test.each([
  ['a ring pair', '--mate ring --ratio 3 --module 1.5 --teeth 20'],
  ['a helical rack, cast in iron', '--mate rack --gear-type helical --module 3 --alloy grey-iron'],
  ['a wheel larger than the usual bed and flask', '--ratio 4 --module 3 --gear-type double-helical'],
])('%s: plate makes the job that pair wrote', async (name, options) => {
  const file = `make-${name.replace(/[^a-z]+/g, '-')}.yaml`;
  expect((await pair(...options.split(' '), '--job', file)).code).toBe(0);
  const ran = await runHere(['plate', file, '--out', `out-${file}`, '--json'], { cwd });
  const { parts, job } = JSON.parse(ran.out);
  expect(ran.code).toBe(0);
  expect(parts.length).toBe(2);
  expect(job.notes[0]).toMatch(/run together/);
});

describe('inches', () => {
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
