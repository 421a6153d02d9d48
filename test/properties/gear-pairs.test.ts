import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { gearGeometry } from '../../core/gear/gear-geometry.js';
import { centreDistance } from '../../core/gear/pair.js';
import { checkPair } from '../../core/gear/pair-check.js';
import type { PairRequest } from '../../core/gear/pair-request.js';
import { searchPairs } from '../../core/gear/pair-search.js';
import { shiftSplits } from '../../core/gear/shift-split.js';
import { toothForm } from '../../core/gear/tooth-form.js';
import { formProfile } from '../helpers/form-profile.js';
import { rollPair } from '../helpers/rolling-pair.js';

const real = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const maybe = <T>(arb: fc.Arbitrary<T>) => fc.option(arb, { nil: undefined, freq: 2 });

/** Requests of every kind, most of them sensible, some impossible. */
const anyRequest: fc.Arbitrary<PairRequest> = fc
  .record({
    gearType: fc.constantFrom('spur', 'helical', 'double-helical' as const),
    ratio: real(1, 6),
    ratioTolerance: fc.constantFrom(0.005, 0.02, 0.05),
    teeth: maybe(fc.tuple(fc.integer({ min: 10, max: 40 }), fc.integer({ min: 12, max: 90 }))),
    centreDistance: maybe(real(30, 160)),
    module: maybe(fc.oneof(fc.constantFrom(1.5, 2, 2.5, 3, 4), fc.constant({ from: 1.5, to: 4 }))),
    helixAngle: maybe(real(0.15, 0.6)),
    faceWidth: maybe(real(10, 50)),
    largestDiameter: maybe(real(40, 400)),
    profileShift: fc.boolean(),
    split: fc.constantFrom(...shiftSplits),
  })
  .map((request) => {
    const kept = Object.fromEntries(
      Object.entries(request).filter(([, v]) => v !== undefined),
    ) as unknown as PairRequest;
    if (kept.gearType !== 'spur') return kept;
    const { helixAngle: _, ...spur } = kept;
    return spur;
  });

describe('pair search over random requests, seed 20774', () => {
  it('every pair it gives meets the request and runs; every refusal names a constraint', () => {
    let met = 0;
    let refused = 0;
    fc.assert(
      fc.property(anyRequest, (request) => {
        const { candidates, findings } = searchPairs({ ...request, count: 2 });
        if (candidates.length === 0) {
          refused++;
          expect(findings.length).toBeGreaterThan(0);
          for (const f of findings) {
            expect(f.severity).toBe('stop');
            // Which and by how much: there is a figure in it, or it asks for what is missing.
            if (f.code !== 'size-not-given') expect(f.message).toMatch(/\d/);
          }
          return;
        }
        met++;
        expect(findings).toEqual([]);
        for (const { gear, mate, facts, ratio } of candidates) {
          const tips = [gear, mate].map((s) => gearGeometry(s).tipDiameter);
          if (request.centreDistance !== undefined) {
            expect(facts.centreDistance).toBe(request.centreDistance);
            expect(centreDistance(gear, mate)).toBeCloseTo(request.centreDistance, 8);
          }
          if (request.teeth) expect([gear.teeth, mate.teeth]).toEqual(request.teeth);
          else
            expect(Math.abs(ratio / request.ratio! - 1)).toBeLessThanOrEqual(request.ratioTolerance! + 1e-9);
          if (request.largestDiameter !== undefined)
            expect(Math.max(...tips)).toBeLessThanOrEqual(request.largestDiameter + 1e-6);
          if (typeof request.module === 'number') expect(gear.normalModule).toBe(request.module);
          if (request.helixAngle !== undefined) expect(gear.helixAngle).toBe(request.helixAngle);
          if (request.profileShift === false) expect([gear.profileShift, mate.profileShift]).toEqual([0, 0]);
          expect(gear.thinning).toBeGreaterThanOrEqual(0);
          const again = checkPair(gear, mate, { centreDistance: facts.centreDistance });
          expect(
            again.findings.filter((f) => f.severity === 'stop' && f.code !== 'contact-ratio-below-one'),
          ).toEqual([]);
          const forms = [toothForm(gear), toothForm(mate)] as const;
          if (!forms[0].ok || !forms[1].ok) throw new Error('refused form');
          const run = rollPair(
            formProfile(forms[0].form, 4e-5),
            formProfile(forms[1].form, 4e-5),
            facts.centreDistance,
            8,
          );
          expect(run.tipInRoot).toBe(false);
          // Sections of helical gears with ε_α below 1 hand over between sections: only then may one run ahead.
          const jt = facts.backlash.circumferential;
          expect(run.leastPlay).toBeGreaterThan(jt - 2e-3);
          if (facts.contactRatio >= 1.02) {
            expect(run.mostPlay).toBeLessThan(jt + 2e-3);
            expect(run.transmissionError).toBeLessThan(2e-3);
          }
        }
      }),
      { seed: 20_774, numRuns: 120 },
    );
    expect(met).toBeGreaterThan(40);
    expect(refused).toBeGreaterThan(20);
  });
});
