import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import type { Summary } from '../../core/job/summary.js';
import { temporaryFolder } from './helpers/folders.js';
import { accidents, type Ran, runHere } from './helpers/in-process.js';

const cwd = temporaryFolder();
const cleat = ['make', 'horn-cleat', '--investment', 'ceramic-shell', '--tolerance', '0.1'];
const words = (html: string): string =>
  html
    .replace(/<style>[\s\S]*?<\/style>/, '')
    .replace(/<[^>]*>/g, ' ')
    .replace(/\s+/g, ' ');

describe('a horn cleat in a ceramic shell', () => {
  const made = new Map<string, { ran: Ran; summary: Summary; traveller: string }>();
  beforeAll(async () => {
    for (const alloy of ['tin-bronze', 'grey-iron']) {
      const ran = await runHere([...cleat, '--alloy', alloy, '--out', alloy], { cwd });
      const read = (file: string): string => readFileSync(join(cwd, alloy, file), 'utf8');
      made.set(alloy, { ran, summary: JSON.parse(read('summary.json')), traveller: read('traveller.html') });
    }
  });

  test.each([
    ['tin-bronze', 6],
    ['grey-iron', 7],
  ])('%s: %i coats, no flask, no powder', (alloy, coats) => {
    const { ran, summary, traveller } = made.get(alloy)!;
    expect(ran).toMatchObject({ code: 0, err: '' });
    expect(ran.out).not.toMatch(accidents);
    expect(ran.out).toMatch(/slurry, \d+ g stucco for 1 shell of \d coats and seal/);
    const [part] = summary.parts;
    expect(part).not.toHaveProperty('flask');
    expect(summary).not.toHaveProperty('investment');
    expect(part?.shell?.coats).toBe(coats);
    expect(summary.coating?.coats).toHaveLength(coats + 1);
    // Surface × thickness × 1.6 g/cm³, and edges that add to it: a bench check by hand.
    const { area, thickness, mass } = part!.shell!;
    expect(mass.fired / (area * thickness * 1.6e-3)).toBeGreaterThan(1);
    expect(mass.fired / (area * thickness * 1.6e-3)).toBeLessThan(1.8);
    expect(mass.poured).toBeCloseTo(mass.fired + part!.mass.charge * part!.growth.value ** 3, 0);
    expect(summary.burnout.shellThickness).toBe(thickness);
    expect(summary.burnout.castingTemperature).toBe(summary.pour[0]?.carry?.leaves);
    const text = words(traveller);
    expect(text).toContain('Coat the shell');
    expect(text).toContain('Cool, knock off, saw');
    expect(text).toContain('Colloidal silica is alkaline');
    expect(text).toContain('Shells go in one at a time');
    for (const never of [/\bflasks?\b/i, /undefined|NaN|null/, /\bpowder/]) expect(text).not.toMatch(never);
  });

  test('gypsum refuses the iron that the shell takes, and names the shell', async () => {
    const ran = await runHere(['make', 'horn-cleat', '--alloy', 'grey-iron', '--out', 'no'], { cwd });
    expect(ran.code).not.toBe(0);
    expect(ran.err + ran.out).toContain('ceramic shell');
  });

  test('heated from cold where asked, and priced by slurry and stucco', async () => {
    const job = [
      'job: shells',
      'investment: ceramic-shell',
      'shellFiring: ramp',
      'tolerance: 0.1',
      'prices: { currency: EUR, slurryPerKg: 6, stuccoPerKg: 2, investmentPerKg: 3 }',
      'parts:',
      '  - { name: cleat, part: horn-cleat, quantity: 2 }',
    ].join('\n');
    writeFileSync(join(cwd, 'shells.yaml'), `${job}\n`);
    const ran = await runHere(['plate', 'shells.yaml', '--out', 'ramp', '--json'], { cwd });
    expect(ran).toMatchObject({ code: 0, err: '' });
    const summary = JSON.parse(ran.out) as Summary;
    expect(summary.burnout).toMatchObject({ firing: 'ramp' });
    expect(summary.burnout.segments).toHaveLength(2);
    const { slurry = 0, stucco = 0 } = summary.coating ?? {};
    expect(summary.cost?.lines.map((l) => [l.item, l.quantity * 1000])).toEqual([
      ['slurry', slurry],
      ['stucco', stucco],
    ]);
    expect(summary.cost?.total).toBeCloseTo((6 * slurry + 2 * stucco) / 1000, 9);
    expect(summary.cost?.parts[0]?.all).toBeCloseTo(summary.cost!.total, 9);
  });
});
