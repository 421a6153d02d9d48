import { describe, expect, it } from 'vitest';
import { gearGeometry, rootFormDiameter } from '../../../core/gear/gear-geometry.js';
import { type RackSpec, rackForm } from '../../../core/gear/rack-form.js';
import { checkRackPair, type RackPairFacts, rackMountingDistance } from '../../../core/gear/rack-pair.js';
import type { GearSpec } from '../../../core/gear/spec.js';
import { toothForm } from '../../../core/gear/tooth-form.js';
import { sampleCurve } from '../../../core/solid/sample-curve.js';
import { formProfile } from '../../helpers/form-profile.js';
import { rollOnRack } from '../../helpers/rolling-pair.js';
import { deg, gear } from './gear-cases.js';

const facts = (pinion: GearSpec, rack: RackSpec, options = {}): RackPairFacts => {
  const check = checkRackPair(pinion, rack, options);
  if (!check.facts) throw new Error(check.findings[0]!.message);
  return check.facts;
};

/** Turns the pinion through a pitch against the sampled rack. */
function rolled(pinion: GearSpec, rack: RackSpec, mounting: number, positions = 24) {
  const [a, b] = [toothForm(pinion), rackForm(rack)];
  if (!a.ok || !b.ok) throw new Error('refused');
  const tooth = b.form.curves
    .flatMap((c) => sampleCurve(c, 1e-4).points)
    .map(([half, height]) => ({ half, height }))
    .sort((p, q) => p.height - q.height);
  return rollOnRack(formProfile(a.form), tooth, b.form.pitch, mounting, positions);
}

describe('pinions rolled on racks', () => {
  const t = { thinning: 0.06 };
  it.each([
    ['24 teeth', gear(2, 24, 0, 0, t), gear(2, 24, 0, 0, t), undefined],
    ['shifted 12', gear(3, 12, 0.6, 0, t), gear(3, 24, 0, 0, t), undefined],
    ['helical 20', gear(2, 20, 0.1, 20, t), gear(2, 24, 0, 20, t), undefined],
    ['undercut 10', gear(2, 10, 0.1, 0, t), gear(2, 24, 0, 0, t), undefined],
    ['mounted 0.15 mm out', gear(2, 24, 0, 0, t), gear(2, 24, 0, 0, t), 24.15],
  ] as const)(
    '%s: the play it says, no overlap, no transmission error',
    (_, pinion, rack, mountingDistance) => {
      const f = facts(pinion, rack, { mountingDistance });
      // Profile A's fillet radius, 0.38 for 0.37995, takes the flank's last 0.06 µm from the mate of full depth.
      expect(Math.min(f.pinionTipGap, f.rackTipGap)).toBeGreaterThan(-6e-5);
      const run = rolled(pinion, rack, f.mountingDistance);
      expect(Math.abs(run.leastPlay - f.backlash.circumferential)).toBeLessThan(1e-3);
      if (f.contactRatio > 1) {
        expect(Math.abs(run.mostPlay - f.backlash.circumferential)).toBeLessThan(1e-3);
        expect(run.transmissionError).toBeLessThan(1e-3);
      }
      expect(run.tipInRoot).toBe(false);
    },
  );
  it('tips too long cut in by the gap it says', () => {
    const long = { addendum: 1.2, thinning: 0.2 };
    const [pinion, rack] = [gear(2, 24, 0, 0, { thinning: 0.2 }), gear(2, 24, 0, 0, long)];
    const f = facts(pinion, rack);
    expect(f.rackTipGap).toBeLessThan(-1e-3);
    const run = rolled(pinion, rack, f.mountingDistance, 80);
    expect(f.backlash.circumferential - run.leastPlay).toBeGreaterThan(-f.rackTipGap);
    expect(checkRackPair(pinion, rack).findings.map((x) => x.code)).toContain('tip-fillet-interference');
  });
});

describe('pinion on rack', () => {
  it('the rack of the cutter’s own addendum works down to the start of the involute it cut', () => {
    const straight = 1.25 - 0.38 * (1 - Math.sin(20 * deg));
    const f = facts(gear(2, 24), gear(2, 24, 0, 0, { addendum: straight }));
    expect(f.belowPinionInvolute).toBeCloseTo(0, 9);
    const lowest =
      Math.sqrt(rootFormDiameter(gear(2, 24)) ** 2 - gearGeometry(gear(2, 24)).baseDiameter ** 2) / 2;
    const sliding = 1 - (24 * Math.sin(20 * deg)) / lowest;
    expect(f.pinionSliding[0]).toBeCloseTo(sliding, 9);
  });
  it('backlash: 2 Δa tan α from the mounting distance, thinning for thinning', () => {
    const wide = facts(gear(2, 24), gear(2, 24), { mountingDistance: 24.1 });
    expect(wide.backlash.circumferential).toBeCloseTo(0.2 * Math.tan(20 * deg), 12);
    const thin = facts(gear(2, 24, 0, 20, { thinning: 0.05 }), gear(2, 24, 0, 20, { thinning: 0.03 }));
    expect(thin.backlash.normal).toBeCloseTo(0.08 * Math.cos(20 * deg), 12);
  });
  it('one turn moves the rack z pitches', () => {
    expect(facts(gear(2, 24), gear(2, 24)).travelPerTurn).toBeCloseTo(48 * Math.PI, 12);
  });
  it.each([
    ['not-mates', gear(2, 24), gear(2.5, 24), {}],
    ['pointed-tooth', gear(2, 9, 0.9), gear(2, 24), {}],
    ['teeth-jam', gear(2, 24), gear(2, 24), { mountingDistance: 23.9 }],
    ['no-backlash', gear(2, 24), gear(2, 24), {}],
    ['undercut', gear(2, 12), gear(2, 24), {}],
    ['contact-below-involute', gear(2, 12), gear(2, 24), {}],
    ['tip-root-interference', gear(2, 24), gear(2, 24, 0, 0, { addendum: 1.3 }), {}],
    ['small-tip-clearance', gear(2, 24), gear(2, 24, 0, 0, { addendum: 1.2 }), {}],
    [
      'contact-ratio-below-one',
      gear(2, 24, 0, 0, { addendum: 0.4 }),
      gear(2, 24, 0, 0, { addendum: 0.4 }),
      {},
    ],
  ] as const)('%s', (code, pinion, rack, options) => {
    const found = checkRackPair(pinion, rack, options).findings.find((f) => f.code === code);
    expect(found?.message).toMatch(/^[A-Z].*\.$/);
    expect(found?.remedy).toMatch(/^[A-Z].*\.$/);
  });
  it('mounting distance r + x m', () => {
    expect(rackMountingDistance(gear(2, 24, 0.3))).toBeCloseTo(24.6, 12);
  });
});
