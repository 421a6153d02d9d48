import { expect, test } from 'vitest';
import { keyNumbers } from '../../../gallery/page/bench/key-numbers.js';
import { makeOne } from '../../helpers/cast-input.js';

test('are those of the summary, in the reader’s units', async () => {
  const { result } = await makeOne('knob', {}, { freeze: 'off' });
  const { summary } = result;
  const mm = keyNumbers(summary, 'knob', { lengthUnit: 'mm', degrees: 'C' });
  const told = Object.fromEntries(mm.map(({ label, text }) => [label, text.replaceAll('\u00a0', ' ')]));
  const [pour] = summary.pour;
  const [charge] = summary.charge;
  expect(told.Pour).toBe(
    `${Math.round(pour?.metalTemperature ?? 0)} °C into ${Math.round(pour?.flaskTemperature ?? 0)} °C`,
  );
  expect(Number.parseFloat(told['To melt'] ?? '')).toBeCloseTo(charge?.charge ?? 0, -1);
  expect(Number.parseFloat(told.Powder ?? '')).toBeCloseTo(summary.investment?.weigh.powder ?? 0, -1);
  expect(Number.parseFloat(told.Water ?? '')).toBeCloseTo(summary.investment?.weigh.water ?? 0, -1);
  const { flask } = summary.parts[0] ?? {};
  expect(told.Flask?.match(/[\d.]+/g)?.map(Number)).toEqual(
    [flask?.insideDiameter ?? 0, flask?.insideHeight ?? 0].map((v) => Math.round(v)),
  );
  const size = summary.parts[0]?.meshes.gated.size ?? [];
  expect(told.Print?.match(/[\d.]+/g)?.map(Number)).toEqual(size.map((v) => Number(v.toFixed(1))));
  const inches = keyNumbers(summary, 'knob', { lengthUnit: 'in', degrees: 'F' });
  expect(inches.find((n) => n.label === 'Print')?.text).toMatch(/in$/);
  expect(inches.find((n) => n.label === 'Pour')?.text).toMatch(/°F/);
});

test('a shell has slurry and stucco in place of powder and water', async () => {
  const { result } = await makeOne('knob', {}, { freeze: 'off', investment: 'ceramic-shell' });
  const labels = keyNumbers(result.summary, 'knob', { lengthUnit: 'mm', degrees: 'C' }).map((n) => n.label);
  expect(labels).toEqual(['To melt', 'Slurry', 'Stucco', 'Pour', 'Print']);
});

test('a piece that is left out has no numbers of its own, nor those of another', async () => {
  const { result } = await makeOne('knob', {}, { freeze: 'off' });
  const notMade = [{ name: 'bad', part: 'knob', quantity: 1, alloy: 'tin-bronze', findings: [] }];
  const labels = keyNumbers({ ...result.summary, notMade }, 'bad', { lengthUnit: 'mm', degrees: 'C' }).map(
    (n) => n.label,
  );
  expect(labels).toContain('Powder');
  for (const own of ['Flask', 'Print', 'Pour', 'To melt']) expect(labels).not.toContain(own);
});
