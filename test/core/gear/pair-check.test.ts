import { describe, expect, it } from 'vitest';
import { thinningFor, withThinning } from '../../../core/gear/backlash.js';
import { gearGeometry } from '../../../core/gear/gear-geometry.js';
import { contactRatio, withPairTipShortening } from '../../../core/gear/pair.js';
import { checkPair, type PairFacts } from '../../../core/gear/pair-check.js';
import type { GearSpec } from '../../../core/gear/spec.js';
import { rackOracle } from '../../helpers/rack-oracle.js';
import { rollPair } from '../../helpers/rolling-pair.js';
import { gear } from './gear-cases.js';

const codes = (a: GearSpec, b: GearSpec, options = {}) =>
  checkPair(a, b, options).findings.map((f) => f.code);
const facts = (a: GearSpec, b: GearSpec, options = {}): PairFacts => {
  const check = checkPair(a, b, options);
  if (!check.facts) throw new Error(check.findings.map((f) => f.message).join());
  return check.facts;
};
const rolled = (spec: GearSpec) => ({
  teeth: spec.teeth,
  profile: rackOracle({ ...spec, tipDiameter: gearGeometry(spec).tipDiameter }, 2e-6).profile,
});

describe('pairs rolled through a pitch on teeth cut by the brute-force rack', () => {
  it.each([
    ['20/40', gear(2, 20), gear(2, 40), undefined],
    ['undercut 12/24', gear(3, 12), gear(3, 24), undefined],
    ['shifted 12/24', ...withPairTipShortening(gear(3, 12, 0.6), gear(3, 24, 0.36)), undefined],
    ['helical 19/57', gear(2.5, 19, 0.3, 20), gear(2.5, 57, 0.1, 20), undefined],
    ['20/31 with the axes 0.2 mm out', gear(2, 20), gear(2, 31), 51.2],
  ] as const)('%s: shows the play it says, no overlap, no transmission error', (_, a, b, distance) => {
    const [g, m] = withThinning(a, b, thinningFor(0.12, a, b, distance));
    const {
      backlash,
      contactRatio: ratio,
      tipGap,
    } = {
      ...facts(g, m, { centreDistance: distance }),
      ...facts(g, m, { centreDistance: distance }).gear,
    };
    expect(backlash.circumferential).toBeCloseTo(0.12, 9);
    expect(ratio).toBeGreaterThan(1);
    expect(tipGap).toBeGreaterThan(-1e-9);
    const run = rollPair(rolled(g), rolled(m), facts(g, m, { centreDistance: distance }).centreDistance);
    // Play is angular, so the rolled figure is at the pitch circle, as j_wt is.
    expect(run.leastPlay).toBeCloseTo(0.12, 3);
    expect(run.mostPlay).toBeCloseTo(0.12, 3);
    expect(run.transmissionError).toBeLessThan(1e-3);
    expect(run.tipInRoot).toBe(false);
  });

  it('a tip gap below 0 is an overlap of that size, one above 0 is none', () => {
    const deep = { addendum: 1.2, dedendum: 1.25 };
    const cases: readonly (readonly [GearSpec, GearSpec])[] = [
      [gear(2, 17, 0, 0, { ...deep, thinning: 0.2 }), gear(2, 80, 0, 0, { ...deep, thinning: 0.2 })],
      [gear(2, 25, 0, 0, { ...deep, thinning: 0.2 }), gear(2, 60, 0, 0, { ...deep, thinning: 0.2 })],
      [gear(2, 14, 0, 0, { thinning: 0.2 }), gear(2, 90, 0, 0, { thinning: 0.2 })],
      [
        gear(2, 22, -0.3, 0, { thinning: 0.2, dedendum: 1.6, rootRadius: 0.2 }),
        gear(2, 50, 0.3, 0, { thinning: 0.2, addendum: 1.3 }),
      ],
    ];
    for (const [a, b] of cases) {
      const f = facts(a, b);
      const gap = Math.min(f.gear.tipGap, f.mate.tipGap);
      const run = rollPair(rolled(a), rolled(b), f.centreDistance, 60);
      // Where the tips cut in, the driven gear is pushed back: the error is the overlap, and the play is less by it.
      const overlap = f.backlash.circumferential - run.leastPlay;
      if (gap < -1e-3) {
        expect(overlap).toBeGreaterThan(-gap);
        expect(codes(a, b)).toContain('tip-fillet-interference');
      } else {
        expect(overlap).toBeLessThan(1e-3);
        expect(codes(a, b)).not.toContain('tip-fillet-interference');
      }
    }
    expect(facts(...cases[0]!).gear.tipGap).toBeLessThan(-0.01);
    expect(facts(...cases[2]!).gear.tipGap).toBeGreaterThan(-1e-9);
  });
});

describe('contact', () => {
  it('agrees with the tip-circle figure where both involutes reach far enough', () => {
    for (const [a, b] of [
      [gear(2, 20), gear(2, 40)],
      [gear(2, 25, 0, 15), gear(2, 50, 0, 15)],
      [gear(4, 18, 0.25), gear(4, 36, -0.25)],
    ] as const) {
      const f = facts(a, b);
      expect(f.contactRatio).toBeCloseTo(contactRatio(a, b), 9);
      expect(f.contactRatio).toBeCloseTo(f.nominalContactRatio, 9);
    }
  });
  it('sliding is nought at the pitch point, equal at both roots of equal gears, and endless at the base circle', () => {
    const f = facts(gear(2, 25), gear(2, 25));
    expect(f.gear.slidingAtRoot).toBeCloseTo(f.mate.slidingAtRoot, 9);
    // v_g = ω₁ρ₁ − ω₂ρ₂ one way and the other: 1/(1 − ζ₁) = 1 − ζ₂ at the same place.
    expect(1 / (1 - f.gear.slidingAtRoot)).toBeCloseTo(1 - f.mate.slidingAtTip, 9);
  });
  it('a rounded tip ends the contact earlier', () => {
    const sharp = facts(gear(2, 20), gear(2, 40));
    const round = facts(gear(2, 20), gear(2, 40), { tipRounding: [0.2, 0.2] });
    expect(round.contactRatio).toBeLessThan(sharp.contactRatio - 0.05);
    expect(round.gear.activeTipDiameter).toBeLessThan(sharp.gear.activeTipDiameter);
    expect(round.gear.tipGap).toBeGreaterThan(-1e-9);
  });
});

describe('findings of a pair', () => {
  it('an ordinary pair with backlash has none', () => {
    const a = gear(2, 20, 0, 0, { thinning: 0.05 });
    expect(codes(a, { ...a, teeth: 40 })).toEqual([]);
  });
  it.each([
    ['not-mates', gear(2, 20), gear(2.5, 20), {}],
    ['not-mates', gear(2, 20), gear(2, 20, 0, 10), {}],
    ['base-circles-overlap', gear(2, 20), gear(2, 20), { centreDistance: 37 }],
    ['no-mesh', gear(2, 10, -0.4), gear(2, 10, -0.4), {}],
    ['pointed-tooth', gear(2, 9, 0.9), gear(2, 30), {}],
    ['no-backlash', gear(2, 20), gear(2, 40), {}],
    ['teeth-jam', gear(2, 20), gear(2, 40), { centreDistance: 59.9 }],
    ['contact-ratio-below-one', gear(2, 8), gear(2, 120), {}],
    ['low-contact-ratio', gear(2, 20, 0, 0, { addendum: 0.7 }), gear(2, 40, 0, 0, { addendum: 0.7 }), {}],
    ['tip-root-interference', gear(2, 30, 0, 0, { addendum: 1.3 }), gear(2, 40), {}],
    ['small-tip-clearance', gear(2, 30, 0, 0, { addendum: 1.2 }), gear(2, 40), {}],
    ['contact-below-involute', gear(3, 12), gear(3, 60), {}],
    ['undercut', gear(3, 12), gear(3, 60), {}],
    ['thin-tip', gear(3, 12, 0.62), gear(3, 24, 0.36), {}],
    ['high-sliding', gear(2, 18), gear(2, 90), {}],
  ] as const)('%s', (code, a, b, options) => {
    const found = checkPair(a, b, options).findings.find((f) => f.code === code);
    expect(found?.message).toMatch(/^[A-Z].*\.$/);
    expect(found?.remedy).toMatch(/^[A-Z].*\.$/);
  });
  it('the remedies hold: x_min ends the undercut, the distance asked for ends the jam', () => {
    const x = facts(gear(3, 12), gear(3, 60)).gear.minimumProfileShift;
    expect(codes(gear(3, 12, x), gear(3, 60))).not.toContain('undercut');
    const { backlash } = facts(gear(2, 20), gear(2, 40), { centreDistance: 59.9 });
    expect(59.9 - backlash.centreDistance).toBeCloseTo(60, 9);
  });
});
