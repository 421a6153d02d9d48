import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { gearGeometry, minimumProfileShift, undercutTeeth } from '../../core/gear/gear-geometry.js';
import { withFlankStock } from '../../core/gear/gear-states.js';
import { inv, inverseInvolute } from '../../core/gear/involute.js';
import { diametralPitchFromModule, moduleFromDiametralPitch } from '../../core/gear/module-series.js';
import {
  choosePin,
  idealPinDiameter,
  measureOverPins,
  profileShiftFromPins,
} from '../../core/gear/over-pins.js';
import {
  backlash,
  centreDistance,
  contactRatio,
  pairTipShortening,
  profileShiftSum,
} from '../../core/gear/pair.js';
import { chooseSpan, profileShiftFromSpan, spanOver } from '../../core/gear/span.js';
import { gear } from '../core/gear/gear-cases.js';

const settings = { seed: 20_771, numRuns: 500 };
const real = (min: number, max: number) => fc.double({ min, max, noNaN: true });

const anyGear = fc
  .record({
    m: real(0.5, 12),
    z: fc.integer({ min: 8, max: 120 }),
    x: real(-0.5, 0.8),
    beta: real(0, 35),
    thinning: real(0, 0.08),
  })
  .map(({ m, z, x, beta, thinning }) => gear(m, z, x, beta, { thinning: thinning * m }));

describe('gear formulas, seed 20771', () => {
  it('inverse involute undoes the involute', () => {
    fc.assert(
      fc.property(real(1e-5, 1.5), (angle) => {
        expect(Math.abs(inverseInvolute(inv(angle)) - angle)).toBeLessThan(1e-11);
      }),
      settings,
    );
  });

  it('profile shift → span → profile shift', () => {
    fc.assert(
      fc.property(anyGear, fc.integer({ min: 2, max: 12 }), (spec, k) => {
        const back = profileShiftFromSpan({ ...spec, profileShift: 0 }, k, spanOver(spec, k).span);
        expect(back).toBeCloseTo(spec.profileShift, 9);
      }),
      settings,
    );
  });

  it('profile shift → over pins → profile shift', () => {
    fc.assert(
      fc.property(anyGear, (spec) => {
        const pin = idealPinDiameter(spec);
        const back = profileShiftFromPins(
          { ...spec, profileShift: 0 },
          pin,
          measureOverPins(spec, pin).dimension,
        );
        expect(back).toBeCloseTo(spec.profileShift, 7);
      }),
      settings,
    );
  });

  it('centre distance ↔ profile shift sum', () => {
    fc.assert(
      fc.property(anyGear, fc.integer({ min: 8, max: 120 }), real(0, 0.8), (spec, teeth, x) => {
        const mate = { ...spec, teeth, profileShift: x, thinning: 0 };
        const sum = spec.profileShift + x;
        const { transversePressureAngle } = gearGeometry(spec);
        // Below this sum the working pressure angle would be less than nothing; that is refused, tested elsewhere.
        const rack = 2 * Math.tan(spec.normalPressureAngle);
        fc.pre(sum > 0.001 - ((spec.teeth + teeth) * inv(transversePressureAngle)) / rack);
        const distance = centreDistance(spec, mate);
        expect(profileShiftSum(spec, mate, distance)).toBeCloseTo(sum, 8);
        // A pair on its own centre distance has the play its thinning gives it, measured across the normal base.
        const normal = backlash(spec, mate, distance).normal;
        expect(normal).toBeCloseTo(spec.thinning * Math.cos(spec.normalPressureAngle), 8);
        expect(pairTipShortening(spec, mate)).toBeGreaterThanOrEqual(0);
        expect(contactRatio(spec, mate)).toBeGreaterThanOrEqual(0);
      }),
      settings,
    );
  });

  it('the chosen span and pin touch the flank between base and tip', () => {
    let spans = 0;
    let pins = 0;
    fc.assert(
      fc.property(anyGear, (spec) => {
        const g = gearGeometry(spec);
        const span = chooseSpan(spec);
        const pin = choosePin(spec);
        for (const contact of [span?.contactDiameter, pin?.contactDiameter]) {
          if (contact === undefined) continue;
          expect(contact).toBeGreaterThan(g.baseDiameter);
          expect(contact).toBeLessThan(g.tipDiameter);
        }
        if (span) spans++;
        if (pin) pins++;
      }),
      settings,
    );
    // Nearly every gear can be measured one way or the other.
    expect(spans).toBeGreaterThan(400);
    expect(pins).toBeGreaterThan(400);
  });

  it('flank stock adds up and is undone by its negative', () => {
    fc.assert(
      fc.property(anyGear, real(0, 0.5), real(0, 0.5), (spec, s, t) => {
        expect(withFlankStock(withFlankStock(spec, s), t).thinning).toBeCloseTo(
          withFlankStock(spec, s + t).thinning,
          12,
        );
        expect(withFlankStock(withFlankStock(spec, s), -s).thinning).toBeCloseTo(spec.thinning, 12);
      }),
      settings,
    );
  });

  it('x_min and z_min are one limit; diametral pitch goes back and forth', () => {
    fc.assert(
      fc.property(anyGear, (spec) => {
        expect(undercutTeeth({ ...spec, profileShift: minimumProfileShift(spec) })).toBeCloseTo(
          spec.teeth,
          8,
        );
        const { normalModule } = spec;
        expect(moduleFromDiametralPitch(diametralPitchFromModule(normalModule))).toBeCloseTo(
          normalModule,
          12,
        );
      }),
      settings,
    );
  });
});
