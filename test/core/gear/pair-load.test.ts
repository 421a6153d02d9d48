import { describe, expect, it } from 'vitest';
import { findAlloy } from '../../../core/foundry/alloys/index.js';
import type { DoubleHelicalForces } from '../../../core/gear/forces.js';
import { castGearMaterial } from '../../../core/gear/gear-material.js';
import { describeCrank } from '../../../core/gear/hand-crank.js';
import { internalForm, usualCutterTeeth } from '../../../core/gear/internal-form.js';
import { internalLewisBeam, lewisBeam, rackLewisBeam } from '../../../core/gear/lewis.js';
import { type LoadedPair, type LoadRequest, pairLoad } from '../../../core/gear/pair-load.js';
import { formProfile } from '../../helpers/form-profile.js';
import { deg, gear } from './gear-cases.js';

const bronze = castGearMaterial(findAlloy('tin-bronze')!);
const materials = [bronze, bronze] as const;
const pair = (more: Partial<LoadedPair> = {}): LoadedPair => ({
  mesh: 'external',
  gear: gear(2, 20),
  mate: gear(2, 40),
  faceWidth: 20,
  distance: 60,
  doubleHelical: false,
  ...more,
});
const load = (request: Partial<LoadRequest> = {}, more: Partial<LoadedPair> = {}) => {
  const result = pairLoad(pair(more), { materials, ...request });
  if (!result.ok) throw new Error(result.findings[0]!.message);
  return result.load;
};
const factor = (result: ReturnType<typeof lewisBeam>): number => {
  if (!result.ok) throw new Error(result.findings[0]!.message);
  return result.beam.formFactor;
};

describe('load of a pair', () => {
  it('two of torque, power and speed give the third', () => {
    expect(load({ power: 60, speed: 3 }).torque).toBeCloseTo(20_000, 9);
    expect(load({ power: 60, torque: 20_000 }).speed).toBeCloseTo(3, 12);
    expect(load({ torque: 20_000, speed: 3 }).power).toBeCloseTo(60, 12);
    expect(load({ torque: 20_000 })).toMatchObject({ speed: 0, power: 0, mateTorque: 40_000 });
  });
  it('nothing asked: the forces are those of the allowable torque', () => {
    const l = load();
    expect(l).toMatchObject({ from: 'allowable', share: 1, findings: [] });
    expect(l.forces.tangential).toBeCloseTo(l.strength.tangentialForce, 9);
  });
  it('a crank gives 78 N at its radius; heave and steady work are judged apart', () => {
    const l = load({ crankRadius: 300 });
    expect(l).toMatchObject({ from: 'crank', torque: 23_400 });
    expect(l.findings.map((f) => f.code)).toEqual(['load-above-allowable']);
    const wide = load({ crankRadius: 300 }, { faceWidth: 60 });
    expect(wide.findings.map((f) => f.code)).toEqual(['heave-above-allowable']);
    expect(wide.findings[0]!.message).toMatch(/about 70.2 N·m/);
    expect(load({ crankRadius: 60 }, { faceWidth: 60 }).findings).toEqual([]);
  });
  it('forces stand at the working pitch circle: the same normal force, more of it radial', () => {
    const apart = load({ torque: 20_000 }, { distance: 61 });
    const alpha = Math.acos((60 * Math.cos(20 * deg)) / 61);
    expect(apart.forces.radial / apart.forces.tangential).toBeCloseTo(Math.tan(alpha), 12);
    expect(apart.forces.normal).toBeCloseTo(load({ torque: 20_000 }).forces.normal, 9);
    const ring = load({ torque: 20_000 }, { mesh: 'internal', mate: gear(2, 60), distance: 40 });
    expect(ring.forces.tangential).toBeCloseTo(1000, 9);
    const rack = load({ torque: 20_000 }, { mesh: 'rack', distance: 21 });
    expect(rack).toMatchObject({ mateTorque: null });
    expect(rack.forces.tangential).toBeCloseTo(1000, 9);
  });
  it('double-helical: no net thrust, half of a single helix’s inside', () => {
    const helical = { gear: gear(2, 20, 0, 30), mate: gear(2, 40, 0, 30), distance: 60 / Math.cos(30 * deg) };
    const single = load({ torque: 20_000 }, helical).forces;
    const double = load({ torque: 20_000 }, { ...helical, doubleHelical: true })
      .forces as DoubleHelicalForces;
    expect(double.axial).toBe(0);
    expect(double.half.axial).toBeCloseTo(single.axial / 2, 9);
  });
  it.each<[Partial<LoadRequest>, RegExp]>([
    [{ power: 60 }, /without a speed/],
    [{ power: 60, torque: 100, speed: 2 }, /two of them give the third/],
    [{ crankRadius: 200, torque: 100 }, /crank/],
    [{ torque: -1 }, /torque asked for is -1/],
    [{ speed: Number.NaN }, /speed asked for is NaN/],
  ])('%j is refused', (request, message) => {
    const result = pairLoad(pair(), { materials, ...request });
    expect(result.ok ? '' : result.findings[0]!.message).toMatch(message);
  });
  it('the crank in an inch reader’s words', () => {
    expect(describeCrank(304.8, 67_790.9, 'in')).toBe(
      'One person at a 12 in crank gives about 18 lbf·ft all day at some 23 turns a minute (0.0791 hp), and about 53 lbf·ft in a short heave; the teeth are reckoned good for 50 lbf·ft, enough for steady work but less than a hard heave.',
    );
  });
});

describe('Lewis form factors of ring and rack', () => {
  it('a ring’s tooth: the parabola touches the sampled tooth and never cuts it', () => {
    for (const ring of [gear(2, 60, 0, 0, { addendum: 0.8 }), gear(3, 44, -0.3)]) {
      const [beam, form] = [internalLewisBeam(ring), internalForm(ring, usualCutterTeeth(ring.teeth))];
      if (!beam.ok || !form.ok) throw new Error('refused');
      const { thickness, height, loadAngle, formFactor } = beam.beam;
      // Seen from the middle of the tooth: heights towards the ring's axis.
      const points = formProfile(form.space, 1e-6).profile.map(({ radius, angle }) => {
        const off = Math.PI / ring.teeth - angle;
        return { height: -radius * Math.cos(off), half: radius * Math.sin(off) };
      });
      const [tip, next] = [points[0]!, points[2]!];
      // The load's line, from its own definition: through the tip corner at right angles to the flank there.
      const slope = (tip.half - next.half) / (tip.height - next.height);
      const apex = tip.height + tip.half * slope;
      expect(loadAngle).toBeCloseTo(Math.atan2(-slope, 1), 2);
      let [least, at] = [Infinity, 0];
      for (const p of points) {
        if (p.height >= apex || p.height > -ring.teeth * ring.normalModule * 0.5) continue;
        const slack = p.half / Math.sqrt(apex - p.height) - thickness / 2 / Math.sqrt(height);
        if (slack < least) [least, at] = [slack, p.height];
      }
      expect(Math.abs(least)).toBeLessThan(2e-3);
      expect(Math.abs(apex - at - height)).toBeLessThan(0.1);
      expect(formFactor).toBeCloseTo(thickness ** 2 / (6 * height * ring.normalModule), 9);
    }
  });
  it('a thin tip does not count: the foot carries the load', () => {
    const thin = factor(lewisBeam(gear(2, 16, 0.54, 0, { thinning: 0.46 })));
    expect(thin / factor(lewisBeam(gear(2, 16, 0.54)))).toBeGreaterThan(0.75);
  });
  it('gears below the rack; gear and ring tend to it as the teeth grow in number', () => {
    const rack = factor(rackLewisBeam(gear(2, 20)));
    for (const z of [20, 40, 80, 160]) expect(factor(lewisBeam(gear(2, z)))).toBeLessThan(rack);
    expect(Math.abs(factor(internalLewisBeam(gear(2, 2000))) / rack - 1)).toBeLessThan(0.01);
    expect(Math.abs(factor(lewisBeam(gear(2, 2000))) / rack - 1)).toBeLessThan(0.01);
  });
});
