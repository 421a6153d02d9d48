import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { alloys, findAlloy } from '../../../core/foundry/alloys/index.js';
import {
  doubleHelicalForces,
  pressesOnApex,
  thrustDirection,
  toothForces,
} from '../../../core/gear/forces.js';
import { gearGeometry } from '../../../core/gear/gear-geometry.js';
import { castGearMaterial } from '../../../core/gear/gear-material.js';
import { describeCrank, steadyCrank } from '../../../core/gear/hand-crank.js';
import { lewisBeam } from '../../../core/gear/lewis.js';
import type { GearSpec } from '../../../core/gear/spec.js';
import { pairStrength, strengthCaveats } from '../../../core/gear/strength.js';
import { rackOracle } from '../../helpers/rack-oracle.js';
import { deg, gear } from './gear-cases.js';

const factor = (spec: GearSpec): number => {
  const result = lewisBeam(spec);
  if (!result.ok) throw new Error(result.findings[0]?.message);
  return result.beam.formFactor;
};

describe('Lewis form factor', () => {
  it.each([
    [12, 0],
    [18, 0.3],
    [30, -0.2],
    [60, 0],
  ])(
    'z %i, x %d: the parabola through the apex touches the tooth of the brute-force rack and never cuts it',
    (z, x) => {
      const spec = gear(2, z, x);
      const result = lewisBeam(spec);
      if (!result.ok) throw new Error('refused');
      const { thickness, height, loadAngle } = result.beam;
      const oracle = rackOracle({ ...spec, tipDiameter: gearGeometry(spec).tipDiameter }, 1e-6);
      const tip = oracle.profile.at(-1)!;
      // The load's line, from its own definition: through the tip corner at right angles to the flank there.
      const before = oracle.profile.at(-3)!;
      const [tx, ty] = [tip.x - before.x, tip.y - before.y];
      const apex = tip.x + (tip.y * ty) / tx;
      expect(loadAngle).toBeCloseTo(Math.atan2(-ty, tx), 2);
      // Half thickness of the parabola at a depth below its apex: t/2 √(depth / l).
      let [least, at] = [Infinity, 0];
      for (const p of oracle.profile) {
        if (p.x >= apex || p.radius > oracle.referenceRadius) continue;
        const slack = p.y / Math.sqrt(apex - p.x) - thickness / 2 / Math.sqrt(height);
        if (slack < least) [least, at] = [slack, p.x];
      }
      expect(Math.abs(least)).toBeLessThan(1e-3);
      expect(Math.abs(apex - at - height)).toBeLessThan(0.05);
      expect(result.beam.formFactor).toBeCloseTo(thickness ** 2 / (6 * height * 2), 3);
    },
  );
  it('rises with teeth, profile shift and helix; the module makes no difference', () => {
    for (let z = 12; z < 100; z++) expect(factor(gear(2, z + 1))).toBeGreaterThan(factor(gear(2, z)));
    expect(factor(gear(2, 20, 0.3))).toBeGreaterThan(factor(gear(2, 20)));
    expect(factor(gear(2, 20, 0, 30))).toBeCloseTo(factor(gear(2, 20 / Math.cos(30 * deg) ** 3)), 12);
    expect(factor(gear(7, 20))).toBeCloseTo(factor(gear(1, 20)), 9);
  });
  it('a tooth that cannot be cut is refused with its finding', () => {
    const result = lewisBeam(gear(2, 9, 0.9));
    expect(result.ok ? [] : result.findings.map((f) => f.code)).toEqual(['pointed-tooth']);
  });
});

describe('materials', () => {
  it('a factor of 4 gives the catalogue’s bronze stress, and yield never falls below 1.5 times', () => {
    const bronze = castGearMaterial(findAlloy('tin-bronze')!);
    expect(bronze.allowableStress).toBe(69);
    for (const alloy of alloys) {
      for (const safety of [1, 2, 4]) {
        const { allowableStress } = castGearMaterial(alloy, safety);
        expect(allowableStress).toBeLessThanOrEqual(alloy.strength.tensile / safety);
        if (alloy.strength.yield !== null)
          expect(allowableStress * 1.5).toBeLessThanOrEqual(alloy.strength.yield + 1e-9);
      }
    }
    expect(castGearMaterial(findAlloy('tin-bronze')!, 1).basis).toMatch(/yield/);
    expect(() => castGearMaterial(findAlloy('tin-bronze')!, 0.5)).toThrow(/safety factor is 0.5/);
  });
});

describe('pair strength', () => {
  const bronze = castGearMaterial(findAlloy('tin-bronze')!);
  const aluminium = castGearMaterial(alloys.find((a) => a.family === 'aluminium')!);
  const request = { faceWidth: 20, speed: 3, materials: [bronze, bronze] as const };
  const of = (a: GearSpec, b: GearSpec, more = {}) => {
    const result = pairStrength(a, b, { ...request, ...more });
    if (!result.ok) throw new Error('refused');
    return result.strength;
  };
  it('names the weaker member: fewer teeth in one metal, the weaker metal in another', () => {
    expect(of(gear(2, 20), gear(2, 40)).weaker).toBe('gear');
    expect(of(gear(2, 40), gear(2, 20)).weaker).toBe('mate');
    expect(of(gear(2, 20), gear(2, 40), { materials: [bronze, aluminium] }).weaker).toBe('mate');
    expect(of(gear(2, 20), gear(2, 40), { materials: [bronze, aluminium] }).wearLoad).toBeNull();
  });
  it('power is torque times speed on both shafts, and slower carries more force', () => {
    const s = of(gear(2, 20), gear(2, 40));
    expect(s.power).toBeCloseTo((s.gearTorque / 1000) * 3, 9);
    expect(s.power).toBeCloseTo((s.mateTorque! / 1000) * 1.5, 9);
    expect(of(gear(2, 20), gear(2, 40), { speed: 0 }).gear.bendingLoad).toBeGreaterThan(s.gear.bendingLoad);
    expect(of(gear(2, 20), gear(2, 40), { speed: -3 }).gearTorque).toBe(s.gearTorque);
    expect(['bending of gear 1', 'wear']).toContain(s.limit);
    expect(s.tangentialForce).toBe(Math.min(s.gear.bendingLoad, s.mate.bendingLoad, s.wearLoad!));
  });
  it('says that it is no design code and what it leaves out', () => {
    expect(strengthCaveats.join(' ')).toMatch(/not a rating to a design code/);
    expect(strengthCaveats.join(' ')).toMatch(/leaves out/);
  });
});

describe('forces, seed 20773', () => {
  const real = (min: number, max: number) => fc.double({ min, max, noNaN: true });
  it('the flank’s normal force turns the gear by the torque, whatever cylinder it is reckoned at', () => {
    fc.assert(
      fc.property(real(0, 40), real(1, 1e6), real(1, 1.1), (beta, torque, wider) => {
        const spec = gear(2, 24, 0, beta);
        const g = gearGeometry(spec);
        const reference = toothForces(spec, torque);
        const working = toothForces(spec, torque, g.referenceDiameter * wider);
        // The base tangent plane holds the normal: F_n cos β_b pulls at the base radius.
        expect((reference.normal * Math.cos(g.baseHelixAngle) * g.baseDiameter) / 2 / torque).toBeCloseTo(
          1,
          9,
        );
        expect(working.normal / reference.normal).toBeCloseTo(1, 9);
        expect(working.axial).toBeCloseTo(reference.axial, 6);
        const cosines = Math.cos(20 * deg) * Math.cos(beta * deg);
        expect(reference.tangential / reference.normal).toBeCloseTo(cosines, 9);
        const double = doubleHelicalForces(spec, torque);
        expect(double.axial).toBe(0);
        expect(2 * double.half.axial).toBeCloseTo(reference.axial, 9);
      }),
      { seed: 20_773, numRuns: 200 },
    );
  });
  it('thrust: by the force on a right-handed flank, written out as vectors', () => {
    // The tooth runs along (tan β, 1) in (round, up). A driver turning +round is pushed back along its flank's normal,
    // (−1, tan β) in (round, up): up.
    for (const hand of ['right', 'left'] as const) {
      for (const turns of ['counter-clockwise', 'clockwise'] as const) {
        for (const drives of [true, false]) {
          const lean = hand === 'right' ? 0.5 : -0.5;
          const push = (turns === 'counter-clockwise' ? -1 : 1) * (drives ? 1 : -1);
          // n = (1, −lean) is square to the tooth; scale it so that its round part is `push`.
          expect(thrustDirection(hand, turns, drives)).toBe(Math.sign(-lean * push));
        }
      }
    }
    expect(pressesOnApex('right', 'counter-clockwise', true)).toBe(true);
  });
});

describe('hand crank', () => {
  it('radius sets torque and turns, not power', () => {
    expect(steadyCrank(300).power).toBeCloseTo(steadyCrank(150).power, 12);
    expect(steadyCrank(300).torque * steadyCrank(300).speed).toBeCloseTo(steadyCrank(300).power * 1000, 6);
    expect(() => steadyCrank(0)).toThrow(/crank radius is 0 mm/);
  });
  it('in words', () => {
    expect(describeCrank(300, 100_000)).toBe(
      'One person at a 300 mm crank gives about 23 N·m all day at some 24 turns a minute (59 W), and about 70 N·m in a short heave; the teeth are reckoned good for 100 N·m, which even a hard heave does not reach.',
    );
    expect(describeCrank(300, 40_000)).toMatch(/less than a hard heave\.$/);
    expect(describeCrank(300, 10_000)).toMatch(/less than steady work at this crank\.$/);
  });
});
