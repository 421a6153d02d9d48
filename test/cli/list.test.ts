import { describe, expect, test } from 'vitest';
import { alloys } from '../../core/foundry/alloys/index.js';
import { parts } from '../../generators/index.js';
import { temporaryFolder } from './helpers/folders.js';
import { runHere } from './helpers/in-process.js';

const cwd = temporaryFolder();
const list = async (...argv: string[]): Promise<string> => {
  const ran = await runHere(['list', ...argv], { cwd });
  expect(ran).toMatchObject({ code: 0, err: '' });
  return ran.out;
};

describe('list', () => {
  test('parts, also if nothing is named', async () => {
    const text = await list('parts');
    expect(await list()).toBe(text);
    for (const part of parts)
      expect(text).toMatch(new RegExp(`^${part.name} +${part.summary.slice(0, 20)}`, 'm'));
  });

  test('alloys with densities and temperatures on either scale', async () => {
    const [celsius, fahrenheit] = [await list('alloys'), await list('alloys', '--degrees', 'F')];
    for (const alloy of alloys) {
      expect(celsius).toMatch(new RegExp(`^${alloy.name} .* ${(alloy.density * 1000).toFixed(2)} `, 'm'));
      expect(celsius).toContain(`${alloy.liquidus} °C`);
      expect(fahrenheit).toContain(`${Math.round(alloy.liquidus * 1.8 + 32)} °F`);
    }
  });

  test('alloys within 100 columns; the card of one, by name or UNS number, in the reader’s units', async () => {
    for (const scale of ['C', 'F'])
      for (const line of (await list('alloys', '--degrees', scale)).split('\n'))
        expect(line.length).toBeLessThanOrEqual(100);
    for (const alloy of alloys) {
      const card = await list('alloys', alloy.name);
      expect(await list('alloys', alloy.designation.uns!)).toBe(card);
      expect(card).toContain(alloy.title);
      expect(card).not.toMatch(/undefined|NaN|null/);
      const flat = card.replace(/\s+/g, ' ');
      for (const source of Object.values(alloy.sources)) expect(flat).toContain(`[${source}]`);
      expect(JSON.parse(await list('alloys', alloy.name, '--json'))).toEqual(alloy);
    }
    // C90500 on the CDA sheet: 1570 and 1830 °F, 0.315 lb/in³, 40 ksi tensile, 18 ksi yield.
    const inches = await list('alloys', 'C90500', '--units', 'in', '--degrees', 'F');
    for (const figure of ['1569 °F', '1830 °F', '0.315 lb/in³', '40 ksi tensile', '18 ksi yield'])
      expect(inches).toContain(figure);
    expect(await runHere(['list', 'alloys', 'tin-bronce'], { cwd })).toMatchObject({
      code: 2,
      err: expect.stringContaining('did you mean tin-bronze?'),
    });
  });

  test.each(['parts', 'alloys', 'investments', 'flasks', 'plastics'])(
    '%s: a table, and the same as JSON',
    async (what) => {
      const lines = (await list(what)).trimEnd().split('\n');
      const data = JSON.parse(await list(what, '--json')) as { name: string }[];
      expect(lines).toHaveLength(data.length + 1);
      expect(data.length).toBeGreaterThan(0);
      data.forEach(({ name }, i) => {
        expect(lines[i + 1]!.startsWith(name)).toBe(true);
      });
      expect(lines.join('\n')).not.toMatch(/undefined|NaN|\[object| \n/);
    },
  );

  test('flasks in inches', async () => {
    expect(await list('flasks', '--units', 'in')).toMatch(/^tube-51x64 .* 2 in +2\.5 in$/m);
    expect(await list('flasks')).toMatch(/^tube-51x64 .* 50\.8 mm +63\.5 mm$/m);
  });
});
