/** Filling and freezing on the way of a job: settings, findings, files, and other gatings tried. */
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { jobFiles } from '../../../core/job/job-files.js';
import type { Progress } from '../../../core/job/make-job.js';
import { makeOne, type OneJob } from '../../helpers/cast-input.js';

const pathsOf = ({ result, job }: OneJob): readonly string[] =>
  [...jobFiles(result, { lengthUnit: job.units, degrees: job.degrees })].map((f) => f.path);

const voids = ({ told }: OneJob): number =>
  (told.freeze?.latePlaces ?? []).reduce((sum, place) => sum + place.void, 0);

describe('a job', () => {
  test('fills and freezes its moulds unless it says off', async () => {
    const off = await makeOne('knob', {}, { freeze: 'off' });
    expect(off.told.freeze).toBeUndefined();
    expect(pathsOf(off).filter((p) => p.includes('freeze'))).toEqual([]);
    const stages: Progress[] = [];
    const made = await makeOne('knob', {}, {}, {}, (p) => stages.push(p));
    expect(pathsOf(made).filter((p) => p.includes('freeze'))).toEqual([
      'knob/freeze-section.svg',
      'knob/freeze-surface.svg',
    ]);
    expect(stages.some((p) => /knob: freezing, \d+ %/.test(p.stage))).toBe(true);
    const { freeze } = made.told;
    expect(freeze?.level).toBe('coarse');
    expect(freeze?.imbalance).toBeLessThan(1e-3);
    expect(freeze?.fill.unreached).toBe(0);
    // What goes into summary.json comes out of it the same: no number that JSON cannot hold.
    expect(JSON.parse(JSON.stringify(freeze))).toEqual(freeze);
    // Its times hang together.
    expect(freeze!.solid.all).toBeGreaterThanOrEqual(freeze!.solid.castings);
    expect(freeze!.move).toBeGreaterThan(freeze!.solid.all);
    expect(freeze!.quench.at).toBeGreaterThan(freeze!.solid.all);
    expect(freeze!.fill.castings).toBeLessThanOrEqual(freeze!.fill.total);
    // No faster than the plan has it poured.
    expect(freeze!.fill.castings).toBeGreaterThan(0.8 * made.made.gating.fill.pourTime);
  });

  test('writes the fields where they are asked for', async () => {
    const made = await makeOne('knob', {}, { freezeFields: true });
    expect(pathsOf(made)).toContain('knob/freeze.vtk');
    expect(made.told.files.freezeFields).toBe('knob/freeze.vtk');
  });

  test('takes gating of one part for that part', async () => {
    const off = { freeze: 'off', gating: { modulusRatio: 1 } };
    const usual = await makeOne('knob', {}, off);
    const own = await makeOne('knob', {}, off, { gating: { modulusRatio: 0.8 } });
    expect(own.made.gating.fill.modulusRatio).toBeCloseTo(0.8, 3);
    expect(usual.made.gating.fill.modulusRatio).toBeCloseTo(1, 3);
  });

  test('a shell freezes sooner than plaster: thin, open to the air, and a better conductor', async () => {
    const plaster = await makeOne('knob', {});
    const shell = await makeOne('knob', {}, { investment: 'ceramic-shell' });
    expect(shell.told.freeze!.solid.all).toBeLessThan(0.7 * plaster.told.freeze!.solid.all);
  });

  test('improve keeps what measures better, and says what it tried and how to keep it', async () => {
    const thin = { gating: { modulusRatio: 0.6, leastSprueDiameter: '4mm' } };
    const before = await makeOne('knob', {}, {}, thin);
    const after = await makeOne('knob', {}, { improve: true }, thin);
    expect(voids(before)).toBeGreaterThan(0);
    expect(voids(after)).toBeLessThan(0.95 * voids(before));
    const finding = after.told.freeze?.findings.find((f) => f.code === 'improved');
    expect(finding?.message).toMatch(/Tried: /);
    // What it says to write gives the same again.
    const said = /write gating: (\{.*?\}) under the part/.exec(finding?.remedy ?? '')?.[1];
    const kept = await makeOne('knob', {}, {}, { gating: parse(said ?? '') });
    expect(kept.told.gating).toEqual(after.told.gating);
    expect(voids(kept)).toBeCloseTo(voids(after), 6);
  });
});
