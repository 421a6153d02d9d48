/** Internal and rack pairs against printed worked examples. EMGT = "Elements of Metric Gear Technology"; from memory unless marked. */
import { describe, expect, it } from 'vitest';
import { gearGeometry } from '../../core/gear/gear-geometry.js';
import {
  internalCentreDistance,
  internalGeometry,
  internalReferenceDistance,
  internalShiftSum,
  internalSpanOver,
  internalWorkingPressureAngle,
  measureBetweenPins,
} from '../../core/gear/internal.js';
import { inverseInvolute } from '../../core/gear/involute.js';
import { checkRackPair, rackMountingDistance } from '../../core/gear/rack-pair.js';
import { deg, gear } from '../core/gear/gear-cases.js';
import { printed } from './printed.js';

const inv = (a: number) => Math.tan(a) - a;

describe('EMGT Table 5-1: m 3, internal z 16 and 24, x 0 and 0.5 (its sign: x₂ = −0.5 here)', () => {
  const [pinion, ring] = [gear(3, 16), gear(3, 24, -0.5)];
  const alphaW = internalWorkingPressureAngle(pinion, ring);
  it('working pressure angle and centre distance', () => {
    printed(inv(alphaW), '0.060401');
    // The book reads its angle off the rounded involute; unrounded it is 31.09362.
    printed(inverseInvolute(0.060401) / deg, '31.0937');
    expect(Math.abs(alphaW / deg - 31.0937)).toBeLessThan(1e-4);
    // y = 0.389426 likewise follows from 31.0937°.
    printed(4 * (Math.cos(20 * deg) / Math.cos(31.0937 * deg) - 1), '0.389426');
    expect(
      Math.abs(
        (internalCentreDistance(pinion, ring) - internalReferenceDistance(pinion, ring)) / 3 - 0.389426,
      ),
    ).toBeLessThan(1e-5);
    printed(internalCentreDistance(pinion, ring), '13.1683');
  });
  it('diameters', () => {
    const [g, r] = [gearGeometry(pinion), internalGeometry(ring)];
    printed(g.referenceDiameter, '48.000');
    printed(r.referenceDiameter, '72.000');
    printed(g.baseDiameter, '45.105');
    printed(r.baseDiameter, '67.658');
    printed((2 * internalCentreDistance(pinion, ring) * 16) / 8, '52.673');
    printed((2 * internalCentreDistance(pinion, ring) * 24) / 8, '79.010');
    printed(g.tipDiameter, '54.000');
    printed(r.tipDiameter, '69.000');
    printed(g.rootDiameter, '40.500');
    printed(r.rootDiameter, '82.500');
  });
  it('EMGT Table 5-2: the shift sum back from a = 13.1683', () => {
    // The book's x₂ − x₁ = 0.5.
    printed(-internalShiftSum(pinion, ring, 13.1683), '0.5000');
  });
});

describe('rack and pinion', () => {
  it('EMGT Table 4-5: m 3, z 12, x 0.6, pitch line 32 above the rack’s back: a = 51.800', () => {
    printed(rackMountingDistance(gear(3, 12, 0.6)) + 32, '51.800');
  });
  it('contact ratio of the 20° standard pinion of 20 on a rack, m 1: 1.769 (recomputed by the closed form)', () => {
    // ε = [√(r_a² − r_b²) − r sin α + h_a / sin α] / (π m cos α), EMGT section 11.
    const r = 10;
    const closed =
      (Math.sqrt(11 ** 2 - (r * Math.cos(20 * deg)) ** 2) - r * Math.sin(20 * deg) + 1 / Math.sin(20 * deg)) /
      (Math.PI * Math.cos(20 * deg));
    expect(checkRackPair(gear(1, 20), gear(1, 20)).facts!.contactRatio).toBeCloseTo(closed, 4);
    printed(closed, '1.769');
  });
  it('undercut limit: 18 teeth clear a 20° rack of full depth, 17 just do not (Machinery’s Handbook, 2 / sin² α = 17.097)', () => {
    const codes = (z: number) => checkRackPair(gear(1, z), gear(1, 20)).findings.map((f) => f.code);
    expect(codes(17)).toContain('undercut');
    expect(codes(18)).not.toContain('undercut');
  });
});

describe('sizes of an internal gear (recomputed from the formulas of EMGT section 10)', () => {
  it('between pins and span, m 2, z 40, x 0: the complements of the external table', () => {
    // inv φ = π/2z + inv α − d_p/(m z cos α).
    const ring = gear(2, 40);
    const value = Math.PI / 80 + inv(20 * deg) - 3.4 / (80 * Math.cos(20 * deg));
    const m = measureBetweenPins(ring, 3.4);
    expect(inv(Math.acos(gearGeometry(ring).baseDiameter / m.centreDiameter))).toBeCloseTo(value, 12);
    // Without shift a space is as wide as a tooth: DIN 3960-type table, m 1, z 40 over 5: 13.84481.
    printed(internalSpanOver(ring, 5).span / 2, '13.84481');
  });
});
