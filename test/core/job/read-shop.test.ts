import { describe, expect, it } from 'vitest';
import { formatProblem } from '../../../core/job/job-problem.js';
import { openSource, shopKeyOf } from '../../../core/job/open-source.js';
import { parseJob } from '../../../core/job/read-job.js';
import { defaultShop } from '../../../core/job/read-shop.js';
import { testOptions } from './test-part.js';

const job = `job: two-pulls
parts:
  - { name: pull, part: test-bracket }
`;

const profile = `# Invented.
title: Ropewalk foundry
units: in
plastic: PETG
printShrinkage: 0.004
investment: phosphate-bonded
layerHeight: 0.008
mixing: { waterRatio: 0.2, waste: 0.1, bag: 50lb, vacuum: yes }
bed: { width: 10, depth: 10, height: 12 }
printerCorrection: { xy: 1.001, z: 1 }
flasks:
  - { name: stove pipe, diameter: 5, height: 8, wall: 0.06 }
  - { name: coffee tin, diameter: 4, height: 5.5, base: closed }
kiln: { width: 12, depth: 12, height: 9, topTemperature: 1900F, rate: 540F/h, segments: 8, power: 2.4kW }
furnace: { power: 3kW, efficiency: 0.45 }
prices: { currency: GBP, metalPerKg: { yellow-brass: 9 }, investmentPerKg: 2 }
`;

const withShop = (source: string) => ({ ...testOptions, shop: { fileName: 'shop.yaml', source } });
const read = (text: string, source?: string) => {
  const reading = parseJob(text, source === undefined ? testOptions : withShop(source));
  if (!reading.ok) throw new Error(reading.problems.map(formatProblem).join('\n'));
  return reading.job;
};
const told = (text: string, source?: string) => {
  const reading = parseJob(text, source === undefined ? testOptions : withShop(source));
  return reading.ok ? [] : reading.problems.map(formatProblem);
};

describe('Shop profile', () => {
  it('gives a job what it does not say itself, in the profile’s own unit', () => {
    const made = read(job, profile);
    expect(made.shop).toEqual({
      title: 'Ropewalk foundry',
      plastic: 'PETG',
      printShrinkage: 0.004,
      scale: 1,
      mixing: { waterRatio: 0.2, waste: 0.1, bag: 22_679.6185, vacuum: true },
      kiln: {
        width: 304.8,
        depth: 304.8,
        height: 228.6,
        topTemperature: (1900 - 32) / 1.8,
        rate: 300,
        segments: 8,
        power: 2400,
      },
      furnace: { power: 3000, efficiency: 0.45 },
      alloys: [],
    });
    expect(made).toMatchObject({
      units: 'mm',
      investment: 'phosphate-bonded',
      layerHeight: 0.2032,
      bed: { width: 254, depth: 254, height: 304.8, margin: 5 },
      printerCorrection: { xy: 1.001, z: 1 },
      flasks: [
        { name: 'stove pipe', diameter: 127, height: 203.2, wall: 1.524, base: 'plate' },
        { name: 'coffee tin', diameter: 101.6, height: 139.7, wall: 1.5, base: 'closed' },
      ],
      // The job is in tin bronze, which has no price there: its line is left out of the cost.
      prices: { currency: 'GBP', metalPerKg: { 'yellow-brass': 9 }, investmentPerKg: 2 },
    });
  });

  it('comes after the job’s own keys, group by group', () => {
    const own = `${job}layerHeight: 0.1\ninvestment: gypsum-bonded\nbed: { width: 180 }\n`;
    const made = read(own, profile.replace('waterRatio: 0.2, ', ''));
    expect(made).toMatchObject({ layerHeight: 0.1, investment: 'gypsum-bonded' });
    expect(made.bed).toMatchObject({ width: 180, depth: 220, height: 250, margin: 5 });
    expect(made.printerCorrection.xy).toBe(1.001);
  });

  it('may stand in the job itself, in the job’s unit; without one the defaults hold', () => {
    const made = read(
      `${job}shop: { title: Shed, kiln: { segments: 6 }, flasks: [{ name: can, diameter: 66, height: 95 }] }\n`,
    );
    expect(made.shop).toEqual({ ...defaultShop, title: 'Shed', kiln: { ...defaultShop.kiln, segments: 6 } });
    expect(made.flasks).toEqual([{ name: 'can', diameter: 66, height: 95, wall: 1.5, base: 'plate' }]);
    expect(read(job).shop).toEqual(defaultShop);
  });

  it('brings its own alloys and crucibles, which the job may name', () => {
    const made = read(
      `${job}alloy: shed-bronze\n`,
      'alloys:\n  - { name: shed-bronze, basedOn: tin-bronze, density: 8.7, solidus: 1560F }\n' +
        'crucibles:\n  - { name: little pot, volume: 180 }\n  - { name: no. 4, bilge: 4 }\n',
    );
    expect(made.parts[0]!.alloy).toBe('shed-bronze');
    expect(made.shop.alloys[0]).toMatchObject({
      name: 'shed-bronze',
      basedOn: 'tin-bronze',
      density: 8.7e-3,
    });
    expect(made.shop.alloys[0]!.solidus).toBeCloseTo(848.89, 2);
    expect(made.shop.crucibles!.map((c) => c.name)).toEqual(['little pot', 'no. 4']);
    expect(made.shop.crucibles![0]!.brimVolume).toBe(180_000);
    expect(
      told(job, 'crucibles: [{ name: pot }, { name: pot, bilge: 3, volume: 9 }, { bilge: 2 }]\n'),
    ).toEqual([
      'shop.yaml:1:13 crucibles[0] has no size; give bilge or volume, one of them',
      'shop.yaml:1:28 crucibles[1] has two sizes; give bilge or volume, one of them',
      'shop.yaml:1:36 crucibles[1].name is pot on line 1, as on line 1; give every crucible a name of its own',
      'shop.yaml:1:64 crucibles[2].name is missing; give a name, and bilge or volume',
    ]);
  });

  it('tells what is wrong with its own file, line and column', () => {
    const wrong = profile
      .replace('1900F', '1900')
      .replace('540F/h', '540')
      .replace('segments', 'segment')
      .replace('PETG', 'petg');
    expect(told(job, wrong)).toEqual([
      'shop.yaml:4:10 plastic is petg; did you mean PETG?',
      'shop.yaml:14:58 kiln.topTemperature: "1900" does not say which degrees; write C or F, like 732C or 1350F (from 300 to 1400 °C)',
      'shop.yaml:14:70 kiln.rate: "540" has no unit; write it like 150C/h or 270F/h (from 20 to 2000 °C/h)',
      'shop.yaml:14:75 kiln.segment: unknown key; did you mean segments?',
    ]);
    expect(told(job, profile.replace('waterRatio: 0.2', 'waterRatio: 0.4'))).toEqual([
      'shop.yaml:8:23 mixing.waterRatio is outside what phosphate-bonded investment takes; from 0.14 to 0.35',
    ]);
    expect(told(job, '- a list\n')).toEqual([
      'shop.yaml:1:1 the profile is a list, not keys and values; a shop profile has keys like "kiln:" and "flasks:"',
    ]);
    expect(told(`${job}shop: { kiln: { rate: 5C/h } }\n`, '')).toEqual([
      'job.yaml:4:23 shop.kiln.rate is 5C/h; from 20 to 2000 °C/h',
    ]);
  });

  it('is found by what the job says of it', () => {
    const keyOf = (text: string) => shopKeyOf(openSource(text, '', 'job'));
    expect(keyOf(job)).toBeNull();
    expect(keyOf(`${job}shop: ../foundry.yaml\n`)).toEqual({ path: '../foundry.yaml' });
    expect(keyOf(`${job}shop: { plastic: PLA }\n`)).toBe('own');
    expect(keyOf('job: [')).toBeNull();
  });
});

describe('Burnout time', () => {
  it('is one of start and pour, read as a clock without zone', () => {
    expect(read(`${job}pourAt: 2026-12-05 10:00\n`).burnoutTime).toEqual({ pourAt: '2026-12-05T10:00' });
    expect(read(`${job}startAt: 2026-12-04T07:30\n`).burnoutTime).toEqual({ startAt: '2026-12-04T07:30' });
    expect(read(job).burnoutTime).toBeUndefined();
    expect(told(`${job}pourAt: Saturday ten o'clock\n`)).toEqual([
      'job.yaml:4:9 pourAt: "Saturday ten o\'clock" is no date and time; write a date and time without a zone, like 2026-05-09T18:30',
    ]);
    const both = told(`${job}startAt: 2026-12-04 07:30\npourAt: 2026-12-05 10:00\n`);
    expect(both).toEqual(['job.yaml:5:9 pourAt is given beside startAt; keep one of them']);
  });
});
