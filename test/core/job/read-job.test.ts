import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatProblem } from '../../../core/job/job-problem.js';
import { parseJob } from '../../../core/job/read-job.js';
import { defaultShop } from '../../../core/job/read-shop.js';
import { testOptions } from './test-part.js';

const full = `# All people, sizes and prices are invented.
job: ropewalk-drive
title: 'Rope-laying machine: the drive'
notes: [ "All people, sizes and prices are invented." ]
units: mm
degrees: F
alloy: tin-bronze
investment: gypsum-bonded
tolerance: 0.02
growth: 1.021
stock: { face: 0.8, flank: 0.1mm }
layerHeight: 0.1mm
bed: { width: 220, depth: 8in, height: 250, margin: 6 }
printerCorrection: { xy: 1.002 }
flasks:
  - { name: 'small', diameter: 4in, height: 150 }
  - { name: 'tall', diameter: 100, height: 200 }
prices: { currency: EUR, metalPerKg: { tin-bronze: 18, yellow-brass: 9.5 }, plasticPerKg: 22 }
parts:
  - name: crank-wheel
    part: test-bracket
    quantity: 2
    parameters:
      width: 1-1/2in
      tilt: 20°30'
      bore-diameter: 12mm
  - name: idler
    part: test-bracket
    preset: small
    alloy: yellow-brass
    growth: 1.015
    stock: { flank: 0.2 }
    parameters: { hand: right, countersunk: true }
`;

const read = (text: string | Uint8Array) => {
  const reading = parseJob(text, testOptions);
  if (!reading.ok) throw new Error(reading.problems.map(formatProblem).join('\n'));
  return reading.job;
};
const told = (text: string) => {
  const reading = parseJob(text, testOptions);
  return reading.ok ? [] : reading.problems.map(formatProblem);
};

describe('parseJob', () => {
  it('reads a whole job into millimetres and radians, merging what is set for all', () => {
    const job = read(full);
    const defaults = { shift: 0, countersunk: false, hand: 'left' };
    expect(job).toEqual({
      name: 'ropewalk-drive',
      title: 'Rope-laying machine: the drive',
      notes: ['All people, sizes and prices are invented.'],
      units: 'mm',
      degrees: 'F',
      investment: 'gypsum-bonded',
      shellFiring: 'flash',
      freeze: 'coarse',
      pourDelay: 60,
      improve: false,
      packFlasks: false,
      freezeFields: false,
      shop: defaultShop,
      tolerance: 0.02,
      layerHeight: 0.1,
      bed: {
        shape: 'rectangle',
        width: 220,
        depth: 203.2,
        height: 250,
        margin: 6,
        gap: 6,
        brim: 0,
        keepOuts: [],
      },
      nesting: { sortBy: 'any', seconds: 0, seed: 1 },
      printerCorrection: { xy: 1.002, z: 1 },
      flasks: [
        { name: 'small', diameter: 101.6, height: 150, wall: 1.5, base: 'plate' },
        { name: 'tall', diameter: 100, height: 200, wall: 1.5, base: 'plate' },
      ],
      prices: { currency: 'EUR', metalPerKg: { 'tin-bronze': 18, 'yellow-brass': 9.5 }, plasticPerKg: 22 },
      parts: [
        {
          name: 'crank-wheel',
          part: 'test-bracket',
          quantity: 2,
          alloy: 'tin-bronze',
          growth: 1.021,
          stock: { face: 0.8, flank: 0.1 },
          parameters: { ...defaults, width: 38.1, tilt: (20.5 * Math.PI) / 180, boreDiameter: 12, holes: 2 },
        },
        {
          name: 'idler',
          part: 'test-bracket',
          quantity: 1,
          alloy: 'yellow-brass',
          growth: 1.015,
          stock: { face: 0.8, flank: 0.2 },
          parameters: {
            ...defaults,
            width: 12,
            holes: 1,
            tilt: Math.PI / 6,
            hand: 'right',
            countersunk: true,
          },
        },
      ],
    });
    expect(JSON.parse(JSON.stringify(job))).toEqual(job);
  });

  it('fills in what a short job leaves out', () => {
    const job = read('job: demo\nparts:\n  - name: one\n    part: test-bracket\n');
    expect(job).toMatchObject({
      title: 'demo',
      notes: [],
      units: 'mm',
      degrees: 'C',
      investment: 'gypsum-bonded',
      layerHeight: 0.15,
      bed: { width: 220, depth: 220, height: 250, margin: 5 },
      printerCorrection: { xy: 1, z: 1 },
      flasks: null,
      prices: null,
      parts: [{ name: 'one', quantity: 1, alloy: 'tin-bronze', stock: {} }],
    });
    expect(job.parts[0]).not.toHaveProperty('growth');
    // Each part's own.
    expect(job.tolerance).toBeUndefined();
  });

  it('reads a round bed with zones, a brim and how plates are laid out, in inches', () => {
    const zones =
      'keepOut: [{ x: 4.5, y: 0.25in, width: 1, depth: 0.5 }, { x: 1, y: 3, diameter: 10mm, above: 2 }]';
    const bed = `bed: { shape: circle, diameter: 10, height: 12, margin: 1/8in, brim: 5mm, ${zones} }`;
    const nesting = 'nesting: { sortBy: flask, seconds: 2min, seed: 7, rounds: 40 }';
    const job = read(
      `job: demo\nunits: in\n${bed}\n${nesting}\nparts: [{ name: one, part: test-bracket }]\n`,
    );
    expect(job.bed).toEqual({
      shape: 'circle',
      width: 254,
      depth: 254,
      height: 304.8,
      margin: 3.175,
      // Between patterns the margin is kept too, 3 mm at least.
      gap: 3.175,
      brim: 5,
      keepOuts: [
        { x: 114.3, y: 6.35, width: 25.4, depth: 12.7 },
        { x: 25.4, y: 76.2, diameter: 10, above: 50.8 },
      ],
    });
    expect(job.nesting).toEqual({ sortBy: 'flask', seconds: 120, seed: 7, rounds: 40 });
    expect(read('job: demo\nbed: { margin: 1 }\nparts: [{ name: one, part: test-bracket }]\n').bed.gap).toBe(
      3,
    );
  });

  it('reads bare lengths in inches where the job says so, wherever it says so', () => {
    const job = read(
      'job: demo\nstock: {face: 1/32}\nparts:\n  - {name: one, part: test-bracket, parameters: {width: 1.5, boreDiameter: 12mm}}\nunits: in\n',
    );
    expect(job.units).toBe('in');
    expect(job.parts[0]).toMatchObject({
      stock: { face: 0.79375 },
      parameters: { width: 38.1, boreDiameter: 12 },
    });
  });

  it('puts one metal price on every alloy of the job', () => {
    const text =
      'job: demo\nprices: {currency: EUR, metalPerKg: 18}\nparts:\n  - {name: one, part: test-bracket}\n  - {name: two, part: test-bracket, alloy: yellow-brass}\n';
    expect(read(text).prices).toEqual({
      currency: 'EUR',
      metalPerKg: { 'tin-bronze': 18, 'yellow-brass': 18 },
    });
  });

  it('reads bytes, a byte order mark, Windows line ends and JSON alike', () => {
    const job = read(full);
    expect(read(new TextEncoder().encode(full))).toEqual(job);
    expect(read(new TextEncoder().encode(`\ufeff${full}`))).toEqual(job);
    expect(read(`\ufeff${full}`)).toEqual(job);
    expect(read(full.replaceAll('\n', '\r\n'))).toEqual(job);
    const json = {
      job: 'demo',
      parts: [{ name: 'one', part: 'test-bracket', parameters: { width: '12mm' } }],
    };
    expect(read(JSON.stringify(json)).parts[0]?.parameters.width).toBe(12);
  });

  it('reads anchors and aliases within reason', () => {
    const text =
      'job: demo\nstock: &usual {face: 0.5}\nparts:\n  - {name: one, part: test-bracket, stock: *usual}\n';
    expect(read(text).parts[0]?.stock).toEqual({ face: 0.5 });
  });

  it('takes numbers where text is wanted as they are written', () => {
    expect(read('job: 007\ntitle: 1e3\nparts: [{name: 12, part: test-bracket}]\n')).toMatchObject({
      name: '007',
      title: '1e3',
      parts: [{ name: '12' }],
    });
  });

  it('keeps a %YAML 1.1 directive from changing what words mean', () => {
    expect(read('%YAML 1.1\n---\njob: no\nparts: [{name: yes, part: test-bracket}]\n')).toMatchObject({
      name: 'no',
    });
  });

  it('reports all problems at once, in the order of the file', () => {
    const text = `job: demo
tolerance: 5
parts:
  - name: one
    part: test-braket
  - name: one
    part: test-bracket
    parameters:
      tooth: 3
      holes: 40
growth: 0.9
colour: red
`;
    expect(told(text)).toEqual([
      'job.yaml:2:12 tolerance is 5; from 0.001 to 0.2 mm',
      'job.yaml:5:11 parts[0].part is test-braket; did you mean test-bracket?',
      'job.yaml:6:11 parts[1].name is one on line 6, as on line 4; give every pattern its own name, or raise the quantity',
      'job.yaml:9:7 parts[1].parameters.tooth: unknown key; known are width, boreDiameter, tilt, shift, holes, hand, countersunk',
      'job.yaml:10:14 parts[1].parameters.holes is 40; a whole number from 1 to 12',
      'job.yaml:11:9 growth is 0.9; growth is pattern size / casting size, from 1 to 1.1; for 0.9 write 1.11111',
      expect.stringContaining('job.yaml:12:1 colour: unknown key'),
    ]);
  });

  it('counts the problems beyond twenty', () => {
    const parts = Array.from(
      { length: 30 },
      (_, i) => `  - {name: p${i}, part: test-bracket, quantity: 0}\n`,
    );
    const lines = told(`job: demo\nparts:\n${parts.join('')}`);
    expect(lines).toHaveLength(21);
    expect(lines[20]).toBe('job.yaml:23:47 and 10 more problems from here on; mend the ones above first');
  });

  it('does not let an unprintable file name through', () => {
    const reading = parseJob('', { ...testOptions, fileName: 'a\u001b[31m.yaml' });
    expect(reading.ok ? '' : formatProblem(reading.problems[0]!)).toMatch(/^a\?\[31m\.yaml:1:1 /);
  });

  it('reads ten thousand parts', () => {
    const parts = Array.from(
      { length: 10_000 },
      (_, i) => `  - {name: p${i}, part: test-bracket, parameters: {width: ${10 + (i % 90)}}}\n`,
    );
    expect(read(`job: demo\nparts:\n${parts.join('')}`).parts).toHaveLength(10_000);
  });

  it('never throws, and places every problem inside the file (seed 12)', () => {
    const piece = fc.constantFrom(
      '[',
      '{',
      ']',
      '}',
      ':',
      '- ',
      '? ',
      '&a ',
      '*a',
      '!!str ',
      '"',
      "'",
      '|',
      '>',
      '#',
      '\n',
      '\t',
      '  ',
      ',',
      '%',
      '---\n',
      '<<: ',
      '\u2028',
      '\ud800',
      '\0',
      '1e999',
    );
    const edit = fc.record({
      at: fc.nat(full.length),
      drop: fc.nat(12),
      put: fc.oneof(piece, fc.string({ maxLength: 4 })),
    });
    const mangled = fc
      .array(edit, { minLength: 1, maxLength: 4 })
      .map((edits) =>
        edits.reduce((text, { at, drop, put }) => text.slice(0, at) + put + text.slice(at + drop), full),
      );
    const noise = fc
      .array(fc.oneof(piece, fc.constantFrom('a', 'job', 'parts')), { maxLength: 30 })
      .map((p) => p.join(''));
    fc.assert(
      fc.property(fc.oneof(mangled, noise), (text) => {
        const reading = parseJob(text, testOptions);
        if (reading.ok) return;
        expect(reading.problems.length).toBeGreaterThan(0);
        const lines = text.split('\n');
        for (const problem of reading.problems) {
          expect(problem.line).toBeGreaterThanOrEqual(1);
          expect(problem.line).toBeLessThanOrEqual(lines.length);
          expect(problem.column).toBeGreaterThanOrEqual(1);
          expect(problem.column).toBeLessThanOrEqual((lines[problem.line - 1] ?? '').length + 1);
          expect(formatProblem(problem)).not.toMatch(/\p{Cc}|undefined/u);
        }
      }),
      { seed: 12, numRuns: 1500 },
    );
  });

  it('never throws for bytes (seed 13)', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 60 }), (bytes) => {
        const reading = parseJob(bytes, testOptions);
        if (!reading.ok) expect(reading.problems.length).toBeGreaterThan(0);
      }),
      { seed: 13, numRuns: 1000 },
    );
  });
});
