import { beforeAll, describe, expect, it } from 'vitest';
import { alloyNames } from '../../../core/foundry/alloys/index.js';
import type { Job } from '../../../core/job/job.js';
import { formatProblem } from '../../../core/job/job-problem.js';
import { makeJob } from '../../../core/job/make-job.js';
import { parseJob } from '../../../core/job/read-job.js';
import type { Summary } from '../../../core/job/summary.js';
import { formatConsole } from '../../../core/report/text-summary.js';
import { formatTraveller } from '../../../core/report/traveller.js';
import { type Kernel, loadKernel } from '../../../core/solid/index.js';
import { findPart, partNames } from '../../../generators/index.js';
import { testOptions } from './test-part.js';

const job = `job: pulls
tolerance: 0.2
parts:
  - { name: pull, part: hatch-pull, quantity: 3, parameters: { size: 20 } }
`;

/** Invented. */
const profile = `title: Ropewalk foundry
scale: 1g
prices: { currency: EUR, metalPerKg: { tin-bronze: 99 }, energyPerKwh: 0.3 }
metals:
  - { name: copper wire, composition: { Cu: 100 }, pricePerKg: 9 }
  - { name: tin ingot, composition: { Sn: 100 }, onHand: 0.5kg, pricePerKg: 30 }
  - { name: zinc sheet, composition: { Zn: 100 }, onHand: 200g, pricePerKg: 3 }
`;

const context = {
  ...testOptions,
  knownAlloys: alloyNames,
  knownParts: findPart,
  partNames,
};
const reading = (text: string, shop: string) =>
  parseJob(text, { ...context, shop: { fileName: 'shop.yaml', source: shop } });
const read = (text: string, shop: string): Job => {
  const result = reading(text, shop);
  if (!result.ok) throw new Error(result.problems.map(formatProblem).join('\n'));
  return result.job;
};
const told = (text: string, shop: string): readonly string[] => {
  const result = reading(text, shop);
  return result.ok ? [] : result.problems.map(formatProblem);
};

describe('metals of a shop', () => {
  it('are read with what there is of them and their price; the job adds its own and comes first by name', () => {
    expect(read(job, profile).metals).toEqual([
      { name: 'copper wire', composition: { Cu: 100 }, pricePerKg: 9 },
      { name: 'tin ingot', composition: { Sn: 100 }, available: 500, pricePerKg: 30 },
      { name: 'zinc sheet', composition: { Zn: 100 }, available: 200, pricePerKg: 3 },
    ]);
    const own = `${job}metals:
  - { name: tin ingot, composition: { Sn: 99.9 }, onHand: 2lb, pricePerKg: 28 }
  - { name: old sprues, alloy: tin-bronze }
`;
    expect(read(own, profile).metals).toEqual([
      { name: 'copper wire', composition: { Cu: 100 }, pricePerKg: 9 },
      { name: 'zinc sheet', composition: { Zn: 100 }, available: 200, pricePerKg: 3 },
      { name: 'tin ingot', composition: { Sn: 99.9 }, available: 2 * 453.59237, pricePerKg: 28 },
      { name: 'old sprues', composition: { Cu: 88, Sn: 10, Zn: 2 }, pricePerKg: 0 },
    ]);
    expect(read(job, 'title: x').metals).toBeUndefined();
    const alloy = 'alloys: [{ name: bell, basedOn: tin-bronze, composition: { Cu: 80, Sn: 20 } }]\n';
    expect(read(job, `${alloy}metals: [{ name: bells, alloy: bell }]`).metals).toMatchObject([
      { composition: { Cu: 80, Sn: 20 } },
    ]);
  });

  it.each([
    ['metals: 3', 'shop.yaml:1:9 metals is 3; give a list of metals, each after "- "'],
    [
      'metals:\n  - { composition: { Cu: 100 } }',
      'shop.yaml:2:5 metals[0].name is missing; give a name, and alloy or composition',
    ],
    [
      'metals:\n  - { name: wire }',
      'shop.yaml:2:5 metals[0]: does not say what it is; give alloy or composition, one of them',
    ],
    [
      'metals:\n  - { name: wire, alloy: copper, composition: { Cu: 100 } }',
      'shop.yaml:2:5 metals[0] has an alloy and a composition; give alloy or composition, one of them',
    ],
    [
      'metals:\n  - { name: wire, alloy: tin-bronce }',
      'shop.yaml:2:26 metals[0].alloy is tin-bronce; did you mean tin-bronze?',
    ],
    [
      'metals:\n  - { name: wire, composition: { Cu: 90, Sn: 20 } }',
      'shop.yaml:2:32 metals[0].composition: sums to 110 %; make it 100 %, or less where some of it is not known',
    ],
    [
      'metals:\n  - { name: wire, composition: { Cu: 190 } }',
      'shop.yaml:2:38 metals[0].composition.Cu is 190; give mass %, from 0 to 100',
    ],
    ['metals:\n  - { name: wire, alloy: copper, onHand: -3kg }', 'shop.yaml:2:42 metals[0].onHand'],
    ['metals:\n  - { name: wire, alloy: copper, price: 3 }', 'shop.yaml:2:34 metals[0].price: unknown key'],
    [
      'metals:\n  - { name: wire, alloy: copper }\n  - { name: wire, alloy: copper }',
      'shop.yaml:3:13 metals[1].name is wire on line 3, as on line 2; give every metal a name of its own',
    ],
    ['scale: 0g', 'shop.yaml:1:8 scale is 0g; from 0.01 to 100 g'],
  ])('%s', (shop, expected) => {
    const lines = told(job, shop);
    expect(lines).toHaveLength(1);
    expect(lines[0]!.startsWith(expected), lines[0]).toBe(true);
  });

  it('are told in the job where they stand in it', () => {
    expect(told(`${job}metals:\n  - { name: wire, alloy: coper }\n`, profile)).toEqual([
      'job.yaml:6:26 metals[0].alloy is coper; did you mean copper?',
    ]);
    expect(told(`${job}shop: { metals: [{ name: wire, alloy: coper }] }\n`, '')).toEqual([
      'job.yaml:5:39 shop.metals[0].alloy is coper; did you mean copper?',
    ]);
  });
});

describe('a job of metals on the shelf', () => {
  let kernel: Kernel;
  beforeAll(async () => {
    kernel = await loadKernel();
  });
  const made = (text: string, shop: string): Summary => {
    const result = makeJob(read(text, shop), { kernel, findPart });
    if ('refused' in result) throw new Error(JSON.stringify(result.refused));
    return result.summary;
  };

  it('weighs out what a programme solved by hand says, to the gram, and costs it', () => {
    const summary = made(job, profile);
    const melt = summary.charge[0]!.melt!;
    const { mix } = melt;
    if (!mix?.ok) throw new Error('no mix');
    // t = 0.0909 m, z = 0.03158 m, c = 0.8889 m with m = 1/1.011377 of the charge: see metal-mix.test.ts.
    const charge = melt.heats.reduce((s, h) => s + h.charge, 0);
    const m = charge / 1.011377;
    const shares: Record<string, number> = {
      'copper wire': 0.88 / 0.99,
      'tin ingot': 0.09 / 0.99,
      'zinc sheet': 0.03 / 0.95,
    };
    for (const x of mix.metals) {
      expect(x.unrounded).toBeCloseTo(shares[x.name]! * m, 3);
      expect(Math.abs(x.mass - x.unrounded)).toBeLessThanOrEqual(1);
      expect(x.mass % 1).toBe(0);
    }
    expect(mix.metals.reduce((s, x) => s + x.mass, 0)).toBe(charge);
    expect(mix.metals.find((x) => x.name === 'tin ingot')?.left).toBe(
      500 - mix.metals.find((x) => x.name === 'tin ingot')!.mass,
    );
    // Own metals' prices stand in place of the alloy's.
    const lines = summary.cost!.lines.filter((l) => l.unit === 'kg');
    expect(lines.map((l) => [l.item, l.price])).toEqual([
      ['copper wire for Tin bronze (gunmetal) 88-10-0-2', 9],
      ['tin ingot for Tin bronze (gunmetal) 88-10-0-2', 30],
      ['zinc sheet for Tin bronze (gunmetal) 88-10-0-2', 3],
    ]);
    expect(lines.reduce((s, l) => s + l.amount, 0)).toBeCloseTo(mix.cost, 9);
  });

  it('stands on console, traveller and bench copy; the scale has its say', () => {
    const summary = made(job, profile.replace('scale: 1g', 'scale: 0.5g'));
    const { mix } = summary.charge[0]!.melt!;
    if (!mix?.ok) throw new Error('no mix');
    const tin = mix.metals.find((x) => x.name === 'tin ingot')!;
    expect((tin.mass / 0.5) % 1).toBe(0);
    const view = { lengthUnit: 'mm', degrees: 'C' } as const;
    expect(formatConsole(summary, view).replace(/\s+/g, ' ')).toContain(
      `tin ingot ${tin.mass.toFixed(1)} g, ${tin.left!.toFixed(1)} g left`,
    );
    const paper = formatTraveller(summary, {}, {}, view);
    const plainText = paper.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ');
    expect(plainText).toContain('from the shelf');
    expect(plainText).toMatch(/Last zinc sheet, furnace off.*zinc boils at 907 °C/);
    expect(plainText.split(`${tin.mass.toFixed(1)} g`).length).toBeGreaterThan(2);
  });

  it('that they cannot make keeps its charge and carries one finding that says what is out', () => {
    const noTin = profile.replace(/^.*tin ingot.*\n/m, '');
    const summary = made(job, noTin);
    const { charge, melt } = summary.charge[0]!;
    expect(charge).toBeGreaterThan(0);
    expect(melt!.mix).toMatchObject({ ok: false, short: 0 });
    const told = summary.pour[0]!.findings.filter((f) => f.code === 'no-mix');
    expect(told).toHaveLength(1);
    expect(told[0]!.message).toMatch(/tin comes to 0 %, at least 9 % is in specification/);
    expect(told[0]!.remedy).toMatch(/\d+ g of pure tin/);
    // The alloy's own price then counts.
    expect(summary.cost!.lines.filter((l) => l.unit === 'kg').map((l) => l.price)).toEqual([99]);
    const view = { lengthUnit: 'mm', degrees: 'C' } as const;
    expect(formatConsole(summary, view)).toContain('[no-mix]');
  });

  it('gives a second alloy what the first leaves on the shelf', () => {
    const two = `${job}  - { name: brass, part: hatch-pull, alloy: yellow-brass, parameters: { size: 20 } }\n`;
    const shelf = `${profile}  - { name: lead, composition: { Pb: 100 }, pricePerKg: 2 }\n`;
    const [bronze, brass] = made(two, shelf).charge.map((c) => {
      if (!c.melt?.mix?.ok) throw new Error('no mix');
      return c.melt.mix.metals.find((x) => x.name === 'zinc sheet')!;
    });
    expect(bronze!.left).toBeCloseTo(200 - bronze!.mass, 9);
    expect(brass!.mass).toBeGreaterThan(0);
    expect(brass!.left).toBeCloseTo(200 - bronze!.mass - brass!.mass, 9);
    // Where the first leaves too little, the second is told of it.
    const scant = shelf.replace('onHand: 200g', `onHand: ${Math.ceil(bronze!.mass + brass!.mass / 2)}g`);
    const told = made(two, scant).pour.map((p) => p.findings.filter((f) => f.code === 'no-mix').length);
    expect(told).toEqual([0, 1]);
  });
});
