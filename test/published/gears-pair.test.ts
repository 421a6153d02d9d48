/**
 * Gear pairs against printed worked examples. EMGT = "Elements of Metric Gear Technology"; figures from memory
 * unless marked. "Recomputed" figures are of the same formulas by other hands, for cases no book here prints.
 */
import { describe, expect, it } from 'vitest';
import { gearGeometry } from '../../core/gear/gear-geometry.js';
import { inv } from '../../core/gear/involute.js';
import {
  centreDistance,
  contactRatio,
  overlapRatio,
  pairTipShortening,
  pathOfContact,
  profileShiftSum,
  referenceCentreDistance,
  withPairTipShortening,
  workingDiameters,
  workingPressureAngle,
  workingPressureAngleAt,
} from '../../core/gear/pair.js';
import type { GearSpec } from '../../core/gear/spec.js';
import { deg, gear } from '../core/gear/gear-cases.js';
import { printed } from './printed.js';

const tip = (spec: GearSpec) => gearGeometry(spec).tipDiameter;

describe('EMGT Table 4-1: m 3, z 12 and 24, no shift', () => {
  const pair = [gear(3, 12), gear(3, 24)] as const;
  it('a and ε_α', () => {
    printed(centreDistance(...pair), '54.000');
    // The book’s ε_α reckons with the wheel’s whole tip, though it reaches past the undercut pinion’s base
    // tangent point; contact there is impossible, so the true ratio is smaller.
    const path = pathOfContact(...pair);
    printed(path.nominalLength / gearGeometry(pair[0]).transverseBasePitch, '1.5111');
    expect(path.interferesOnGear).toBe(true);
    expect(path.interferesOnMate).toBe(false);
    expect(contactRatio(...pair)).toBeLessThan(1.5111);
  });
});

describe('EMGT Table 4-3: m 3, z 12 and 24, x 0.6 and 0.36', () => {
  const pair = [gear(3, 12, 0.6), gear(3, 24, 0.36)] as const;
  const short = withPairTipShortening(...pair);
  it('working pressure angle and centre distance', () => {
    printed(inv(workingPressureAngle(...pair)), '0.034316');
    printed(workingPressureAngle(...pair) / deg, '26.0886');
    printed((centreDistance(...pair) - referenceCentreDistance(...pair)) / 3, '0.83329');
    printed(centreDistance(...pair), '56.4999');
  });
  it('working diameters', () => {
    const [d1, d2] = workingDiameters(...pair, centreDistance(...pair));
    printed(d1, '37.667');
    printed(d2, '75.333');
  });
  it('tip and root with the tips shortened', () => {
    printed((tip(short[0]) - 36) / 2, '4.420');
    printed((tip(short[1]) - 72) / 2, '3.700');
    printed(tip(short[0]), '44.840');
    printed(tip(short[1]), '79.400');
    printed(gearGeometry(pair[0]).rootDiameter, '32.100');
    printed(gearGeometry(pair[1]).rootDiameter, '66.660');
    printed((tip(short[0]) - gearGeometry(short[0]).rootDiameter) / 2, '6.370');
  });
  it('ε_α with and without shortening (recomputed)', () => {
    printed(contactRatio(...short), '1.2021');
    printed(contactRatio(...pair), '1.3478');
  });
});

describe('EMGT Table 4-4: the same from a = 56.4999', () => {
  it('α_w and Σx', () => {
    printed(workingPressureAngleAt(gear(3, 12), gear(3, 24), 56.4999) / deg, '26.0886');
    printed(profileShiftSum(gear(3, 12), gear(3, 24), 56.4999), '0.9600');
  });
});

describe('EMGT Table 6-1: m_n 3, β 30°, z 12 and 60, x_n 0.09809 and 0 (α_wt, a seen on p. T-109)', () => {
  const pair = [gear(3, 12, 0.09809, 30), gear(3, 60, 0, 30)] as const;
  it('working pressure angle and centre distance', () => {
    printed(referenceCentreDistance(...pair), '124.7077');
    printed(inv(workingPressureAngle(...pair)), '0.023405');
    printed(workingPressureAngle(...pair) / deg, '23.1126');
    printed((centreDistance(...pair) - referenceCentreDistance(...pair)) / 3, '0.09745');
    printed(centreDistance(...pair), '125.000');
  });
  it('working and tip diameters', () => {
    const [d1, d2] = workingDiameters(...pair, centreDistance(...pair));
    printed(d1, '41.667');
    printed(d2, '208.333');
    const short = withPairTipShortening(...pair);
    printed(tip(short[0]), '48.154');
    printed(tip(short[1]), '213.842');
  });
  it('Σx_n from a = 125 (recomputed)', () => {
    printed(profileShiftSum(...pair, 125), '0.098090');
  });
});

describe('contact ratios (recomputed)', () => {
  it.each([
    ['m 2, 20/40', gear(2, 20), gear(2, 40), '1.6352'],
    ['m 2, 17/51', gear(2, 17), gear(2, 51), '1.6364'],
    ['m 6, 30/60', gear(6, 30), gear(6, 60), '1.7191'],
    ['m 4, 18/36, x ±0.25', gear(4, 18, 0.25), gear(4, 36, -0.25), '1.5743'],
    ['m_n 2, β 15°, 25/50', gear(2, 25, 0, 15), gear(2, 50, 0, 15), '1.6039'],
    ['m_n 2, β 30°, 20/30', gear(2, 20, 0, 30), gear(2, 30, 0, 30), '1.3273'],
  ])('%s', (_, a, b, ratio) => {
    printed(contactRatio(a, b), ratio);
  });
  it.each([
    [14.5, '1.8670'],
    [20, '1.6052'],
    [25, '1.4419'],
  ])('m 2, 20/30, α %s°', (alpha, ratio) => {
    const angle = { normalPressureAngle: alpha * deg };
    const pair = [gear(2, 20, 0, 0, angle), gear(2, 30, 0, 0, angle)] as const;
    printed(pathOfContact(...pair).nominalLength / gearGeometry(pair[0]).transverseBasePitch, ratio);
  });
  it('overlap ratio', () => {
    printed(overlapRatio(gear(2, 25, 0, 15), 20), '0.8238');
    printed(overlapRatio(gear(2, 20, 0, 30), 25), '1.9894');
    printed(overlapRatio(gear(2.5, 19, 0.3, 20), 30), '1.3064');
  });
});

describe('shifted pairs (recomputed)', () => {
  it('m_n 2.5, β 20°, z 19/57, x 0.3/0.1', () => {
    const pair = [gear(2.5, 19, 0.3, 20), gear(2.5, 57, 0.1, 20)] as const;
    const short = withPairTipShortening(...pair);
    printed(workingPressureAngle(...pair) / deg, '22.53673');
    printed(centreDistance(...pair), '102.06679');
    printed(tip(short[0]), '56.9882');
    printed(tip(short[1]), '157.0851');
    printed(contactRatio(...short), '1.4239');
    printed(contactRatio(...pair), '1.4396');
  });
  it('m 3, z 13/29, x 0.4/0.2', () => {
    const pair = [gear(3, 13, 0.4), gear(3, 29, 0.2)] as const;
    const short = withPairTipShortening(...pair);
    printed(workingPressureAngle(...pair) / deg, '23.69324');
    printed(centreDistance(...pair), '64.64998');
    printed(tip(short[0]), '47.1000');
    printed(tip(short[1]), '93.9000');
    printed(contactRatio(...short), '1.3447');
    printed(contactRatio(...pair), '1.4058');
  });
  it('x +0.25 and −0.25 leave a = 108 and need no shortening', () => {
    const pair = [gear(4, 18, 0.25), gear(4, 36, -0.25)] as const;
    printed(centreDistance(...pair), '108.000');
    printed(tip(pair[0]), '82.000');
    printed(tip(pair[1]), '150.000');
    printed(pairTipShortening(...pair), '0.000');
  });
});
