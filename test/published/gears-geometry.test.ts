/**
 * Tooth geometry against printed numbers. EMGT = "Elements of Metric Gear Technology". Unless marked
 * otherwise the printed figures are from memory. The tolerance is half the last printed digit.
 */
import { describe, expect, it } from 'vitest';
import { basicRackProfiles, straightDepth } from '../../core/gear/basic-rack.js';
import { gearGeometry, minimumProfileShift, undercutTeeth } from '../../core/gear/gear-geometry.js';
import { inv, inverseInvolute } from '../../core/gear/involute.js';
import { moduleFromDiametralPitch } from '../../core/gear/module-series.js';
import { deg, gear } from '../core/gear/gear-cases.js';
import { printed } from './printed.js';

describe('involute function (Machinery’s Handbook and EMGT involute tables, from memory)', () => {
  it.each([
    [10, '0.0017941'],
    [12, '0.0031171'],
    [14.5, '0.0055448'],
    [15, '0.0061498'],
    [16, '0.0074927'],
    [17.5, '0.0098662'],
    [18, '0.0107604'],
    [20, '0.0149044'],
    [22.5, '0.0215145'],
    [25, '0.0299753'],
    [28, '0.0430172'],
    [30, '0.0537515'],
    [35, '0.0893423'],
    [40, '0.1409679'],
    [45, '0.2146018'],
  ])('inv %s° = %s', (angle, value) => {
    printed(inv(angle * deg), value);
    // Reading the table backwards: the slope tan² α turns the rounding of the table into one of the angle.
    const slack = 0.5e-7 / Math.tan(angle * deg) ** 2;
    expect(Math.abs(inverseInvolute(Number(value)) - angle * deg)).toBeLessThanOrEqual(slack * 1.0001);
  });
});

describe('basic racks (ISO 53:1998, from memory)', () => {
  it('profile A’s fillet radius is the largest that keeps a straight flank to depth 1: c_P / (1 − sin α)', () => {
    printed(0.25 / (1 - Math.sin(20 * deg)), '0.38');
    expect(straightDepth(basicRackProfiles.A)).toBeCloseTo(1, 3);
  });
  it.each([
    ['A', 1, 1.25, 0.38],
    ['B', 1, 1.25, 0.3],
    ['C', 1, 1.25, 0.25],
    ['D', 1, 1.4, 0.39],
  ] as const)('profile %s', (name, addendum, dedendum, rootRadius) => {
    expect(basicRackProfiles[name]).toEqual({
      normalPressureAngle: 20 * deg,
      addendum,
      dedendum,
      rootRadius,
    });
  });
});

describe('spur pair m 3, z 12 and 24 (EMGT Table 4-1)', () => {
  const [pinion, wheel] = [gearGeometry(gear(3, 12)), gearGeometry(gear(3, 24))];
  it('reference, base, tip, root diameters', () => {
    printed(pinion.referenceDiameter, '36.000');
    printed(wheel.referenceDiameter, '72.000');
    printed(pinion.baseDiameter, '33.829');
    printed(wheel.baseDiameter, '67.658');
    printed(pinion.tipDiameter, '42.000');
    printed(wheel.tipDiameter, '78.000');
    printed(pinion.rootDiameter, '28.500');
    printed(wheel.rootDiameter, '64.500');
  });
});

describe('helical pair m_n 3, β 30°, z 12 and 60 (EMGT Table 6-1; α_t, m_t, d, d_b seen on p. T-109)', () => {
  const [pinion, wheel] = [gearGeometry(gear(3, 12, 0.09809, 30)), gearGeometry(gear(3, 60, 0, 30))];
  it('transverse module and pressure angle', () => {
    printed(pinion.transverseModule, '3.46410');
    printed(pinion.transversePressureAngle / deg, '22.79588');
  });
  it('diameters', () => {
    printed(pinion.referenceDiameter, '41.569');
    printed(wheel.referenceDiameter, '207.846');
    printed(pinion.baseDiameter, '38.322');
    printed(wheel.baseDiameter, '191.611');
    printed(pinion.rootDiameter, '34.658');
    printed(wheel.rootDiameter, '200.346');
  });
});

describe('transverse pressure angle of a 20° normal rack (EMGT worked examples)', () => {
  it.each([
    [15, '20.64690'],
    [20, '21.17283'],
    [25, '21.88023'],
    [30, '22.79588'],
  ])('β %s°: α_t = %s°', (beta, alphaT) => {
    printed(gearGeometry(gear(2, 20, 0, beta)).transversePressureAngle / deg, alphaT);
  });
});

describe('undercut limit (rack with straight flank to depth 1)', () => {
  // A rack of depth 1 with a sharp corner is the one the classical formula 2 / sin² α stands for.
  const classic = { dedendum: 1, rootRadius: 0 };
  it.each([
    [14.5, '31.903'],
    [20, '17.097'],
    [25, '11.198'],
  ])('α %s°: z_min = %s (2 / sin² α, EMGT 4.5; the handbooks round to 32, 17, 12)', (alpha, z) => {
    printed(undercutTeeth(gear(1, 20, 0, 0, { ...classic, normalPressureAngle: alpha * deg })), z);
  });
  it.each([
    [8, '0.5321'],
    [9, '0.4736'],
    [10, '0.4151'],
    [11, '0.3566'],
    [12, '0.2981'],
    [13, '0.2396'],
    [14, '0.1812'],
    [15, '0.1227'],
    [16, '0.0642'],
  ])('z %s: x_min = %s (EMGT 4.5)', (z, x) => {
    printed(minimumProfileShift(gear(1, z, 0, 0, classic)), x);
  });
  it.each([
    [15, '15.538'],
    [20, '14.407'],
    [30, '11.538'],
    [45, '6.752'],
  ])('helical β %s°: z_min = %s (2 cos β / sin² α_t, recomputed)', (beta, z) => {
    printed(undercutTeeth(gear(1, 20, 0, beta, classic)), z);
  });
});

describe('module from diametral pitch, m = 25.4 / DP (Machinery’s Handbook, exact inch)', () => {
  it.each([
    [4, '6.35'],
    [5, '5.08'],
    [6, '4.23333'],
    [8, '3.175'],
    [10, '2.54'],
    [12, '2.11667'],
    [16, '1.5875'],
    [24, '1.05833'],
    [32, '0.79375'],
  ])('DP %s = %s mm', (dp, m) => {
    printed(moduleFromDiametralPitch(dp), m);
  });
});
