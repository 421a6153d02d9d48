/** The demo's double-helical gear from parameters to margins: what a hotter flask and a quicker pour are worth. */
import { beforeAll, expect, test } from 'vitest';
import type { FreezePlan } from '../../../core/freeze/plans.js';
import { freezePart } from '../../../core/job/freeze-part.js';
import { mouldFor } from '../../../core/job/part-mould.js';
import { makeOne, type OneJob } from '../../helpers/cast-input.js';

let gear: OneJob;
beforeAll(async () => {
  const parameters = { module: '2', teeth: 40, helixAngle: '25deg', faceWidth: 24, bore: '12mm' };
  gear = await makeOne('double-helical-gear', parameters, { freeze: 'off' });
});

const poured = (mould: number, delay: number): FreezePlan => {
  const pour = { ...gear.pour, flaskTemperature: mould };
  const job = { ...gear.job, freeze: 'coarse' as const, pourDelay: delay };
  return freezePart(gear.made, mouldFor(gear.made, gear.job), pour, job)!.plan;
};

test('tooth tips fill with more to spare in a hotter flask, poured sooner', () => {
  const flasks = [250, 350, 450, 540].map((t) => poured(t, 60));
  const delays = [0, 120, 600].map((s) => poured(450, s));
  const margins = flasks.map((p) => p.fill.margin);
  const waits = delays.map((p) => p.fill.margin);
  console.log(
    `flask 250, 350, 450, 540 °C: margin ${margins.map((m) => m.toFixed(1)).join(', ')}; ` +
      `450 °C, 0, 120, 600 s from the kiln: ${waits.map((m) => m.toFixed(1)).join(', ')}`,
  );
  // The least is at the teeth, whose tips lie farthest out.
  const tipRadius = (2 * 40) / Math.cos((25 * Math.PI) / 180) / 2 + 2;
  for (const plan of flasks) {
    const [x, y] = plan.fill.marginAt;
    expect(Math.hypot(x, y)).toBeGreaterThan(0.85 * tipRadius);
  }
  for (let i = 1; i < margins.length; i++) expect(margins[i]!).toBeGreaterThan(1.1 * margins[i - 1]!);
  expect(waits[1]!).toBeLessThan(waits[0]!);
  expect(waits[2]!).toBeLessThan(0.97 * waits[1]!);
  // All of it freezes later in a hotter flask, and all is filled.
  for (let i = 1; i < flasks.length; i++)
    expect(flasks[i]!.solid.all).toBeGreaterThan(flasks[i - 1]!.solid.all);
  for (const plan of [...flasks, ...delays]) expect(plan.fill.unreached).toBe(0);
});
