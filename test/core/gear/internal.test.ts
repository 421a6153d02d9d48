import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { gearGeometry } from '../../../core/gear/gear-geometry.js';
import {
  internalBacklash,
  internalCentreDistance,
  internalContactRatio,
  internalGeometry,
  internalShiftSum,
  internalSpanOver,
  internalWorkingPressureAngle,
  measureBetweenPins,
} from '../../../core/gear/internal.js';
import { internalForm, usualCutterTeeth } from '../../../core/gear/internal-form.js';
import { checkInternalPair, type InternalPairFacts } from '../../../core/gear/internal-pair-check.js';
import type { GearSpec } from '../../../core/gear/spec.js';
import { toothForm } from '../../../core/gear/tooth-form.js';
import { distanceToSegment } from '../../../core/solid/sample-curve.js';
import type { Vec2 } from '../../../core/solid/types.js';
import { formProfile } from '../../helpers/form-profile.js';
import { type RollingGear, rollInRing } from '../../helpers/rolling-pair.js';
import { deg, gear } from './gear-cases.js';

const short = { addendum: 0.8, rootRadius: 0.2 };
const pinionProfile = (spec: GearSpec): RollingGear => {
  const result = toothForm(spec);
  if (!result.ok) throw new Error(result.findings[0]!.message);
  return formProfile(result.form);
};
const ringProfile = (spec: GearSpec, chord?: number): RollingGear => {
  const result = internalForm(spec, usualCutterTeeth(spec.teeth));
  if (!result.ok) throw new Error(result.findings[0]!.message);
  return formProfile(result.space, chord);
};
const facts = (pinion: GearSpec, ring: GearSpec, options = {}): InternalPairFacts => {
  const check = checkInternalPair(pinion, ring, options);
  if (!check.facts) throw new Error(check.findings[0]!.message);
  return check.facts;
};
const codes = (pinion: GearSpec, ring: GearSpec, options = {}) =>
  checkInternalPair(pinion, ring, options).findings.map((f) => f.code);

describe('pinions rolled in rings', () => {
  const t = { thinning: 0.06 };
  it.each([
    ['20 in 60', gear(2, 20, 0, 0, t), gear(2, 60, 0, 0, { ...short, ...t })],
    ['shifted 18 in 72', gear(3, 18, 0.3, 0, t), gear(3, 72, -0.1, 0, { ...short, ...t })],
    ['helical 24 in 66', gear(2, 24, 0, 20, t), gear(2, 66, 0.1, 20, { ...short, ...t })],
    [
      'close 30 in 40',
      gear(2, 30, 0.2, 0, t),
      gear(2, 40, -0.4, 0, { addendum: 0.7, rootRadius: 0.2, ...t }),
    ],
  ] as const)('%s: the play it says, no overlap, no transmission error', (_, pinion, ring) => {
    const f = facts(pinion, ring);
    expect(codes(pinion, ring).filter((c) => c !== 'no-radial-assembly')).toEqual([]);
    expect(Math.min(f.pinionTipGap, f.ringTipGap)).toBeGreaterThan(-1e-9);
    const run = rollInRing(pinionProfile(pinion), ringProfile(ring), f.centreDistance);
    expect(run.leastPlay).toBeCloseTo(f.backlash.circumferential, 3);
    expect(run.mostPlay).toBeCloseTo(f.backlash.circumferential, 3);
    expect(run.transmissionError).toBeLessThan(1e-3);
    expect(run.tipInRoot).toBe(false);
    // Normal play at the pair's own distance comes of the thinning alone.
    expect(f.backlash.normal).toBeCloseTo(0.12 * Math.cos(20 * deg), 9);
  });

  it('gaps below 0 are overlaps, gaps of 0 are none: fouling, fillets', () => {
    let overlapping = 0;
    for (const difference of [4, 6, 8, 10, 14]) {
      for (const addendum of [1, 0.8, 0.6]) {
        const pinion = gear(2, 30, 0, 0, { thinning: 0.1, addendum });
        const ring = gear(2, 30 + difference, 0, 0, { thinning: 0.1, addendum, rootRadius: 0.2 });
        const form = internalForm(ring, usualCutterTeeth(ring.teeth));
        if (!form.ok) continue;
        const f = facts(pinion, ring);
        const run = rollInRing(pinionProfile(pinion), ringProfile(ring), f.centreDistance, 60);
        const gap = Math.min(f.pinionTipGap, f.ringTipGap);
        const lost = f.backlash.circumferential - run.leastPlay;
        if (gap < -5e-3) {
          overlapping++;
          expect(lost).toBeGreaterThan(5e-3);
        } else if (gap > -1e-3) expect(lost).toBeLessThan(2e-3);
      }
    }
    expect(overlapping).toBeGreaterThan(2);
  });
});

describe('internal interference against the closed forms of Elements of Metric Gear Technology, section 5', () => {
  const inv = (a: number) => Math.tan(a) - a;
  /** Tip pressure angles and working pressure angle of a pair. */
  const angles = (pinion: GearSpec, ring: GearSpec) => {
    const [g, r] = [gearGeometry(pinion), internalGeometry(ring)];
    return {
      ra1: g.tipDiameter / 2,
      ra2: r.tipDiameter / 2,
      aa1: Math.acos(g.baseDiameter / g.tipDiameter),
      aa2: Math.acos(r.baseDiameter / r.tipDiameter),
      aw: internalWorkingPressureAngle(pinion, ring),
      a: internalCentreDistance(pinion, ring),
    };
  };
  const pairs = [18, 24, 30].flatMap((z1) =>
    [4, 5, 6, 7, 8, 9, 10, 12, 16, 24].flatMap((difference) =>
      [0.6, 0.8, 1].map(
        (addendum) =>
          [
            gear(2, z1, 0, 0, { addendum, dedendum: 1.25 }),
            gear(2, z1 + difference, 0, 0, { addendum, rootRadius: 0.2 }),
          ] as const,
      ),
    ),
  );

  it('trochoid interference: θ₁ z₁/z₂ + inv α_w − inv α_a2 ≥ θ₂', () => {
    let [clear, fouled] = [0, 0];
    for (const [pinion, ring] of pairs) {
      const check = checkInternalPair(pinion, ring, { cutterTeeth: 8 });
      if (!check.facts || internalGeometry(ring).tipDiameter < internalGeometry(ring).baseDiameter) continue;
      const { ra1, ra2, aa1, aa2, aw, a } = angles(pinion, ring);
      const theta1 = Math.acos((ra2 ** 2 - ra1 ** 2 - a ** 2) / (2 * a * ra1)) + inv(aa1) - inv(aw);
      const theta2 = Math.acos((a ** 2 + ra2 ** 2 - ra1 ** 2) / (2 * a * ra2));
      const margin = ((theta1 * pinion.teeth) / ring.teeth + inv(aw) - inv(aa2) - theta2) * ra2;
      // A tip that reaches into the fillet is another matter.
      if (Math.abs(margin) < 1e-3 || check.facts.beyondRingInvolute > 0) continue;
      expect(check.facts.pinionTipGap < -1e-6, `${pinion.teeth}/${ring.teeth} h ${pinion.addendum}`).toBe(
        margin < 0,
      );
      if (margin < 0) fouled++;
      else clear++;
    }
    expect(clear).toBeGreaterThan(15);
    expect(fouled).toBeGreaterThan(5);
  });

  it('trimming: θ₁ + inv α_a1 − inv α_w ≥ (z₂/z₁)(θ₂ + inv α_a2 − inv α_w)', () => {
    let [goes, stays] = [0, 0];
    for (const [pinion, ring] of pairs) {
      const check = checkInternalPair(pinion, ring, { cutterTeeth: 8 });
      if (!check.facts) continue;
      const { aa1, aa2, aw } = angles(pinion, ring);
      const u = ring.teeth / pinion.teeth;
      const theta1 = Math.asin(Math.sqrt((1 - (Math.cos(aa1) / Math.cos(aa2)) ** 2) / (1 - 1 / u ** 2)));
      const theta2 = Math.asin(Math.sqrt(((Math.cos(aa2) / Math.cos(aa1)) ** 2 - 1) / (u ** 2 - 1)));
      const margin = theta1 + inv(aa1) - inv(aw) - u * (theta2 + inv(aa2) - inv(aw));
      if (!Number.isFinite(margin) || Math.abs(margin) < 1e-3) continue;
      expect(check.facts.radialRoom < 0, `${pinion.teeth}/${ring.teeth} h ${pinion.addendum}`).toBe(
        margin < 0,
      );
      if (margin < 0) stays++;
      else goes++;
    }
    expect(goes).toBeGreaterThan(10);
    expect(stays).toBeGreaterThan(10);
  });

  it('involute interference: contact on the pinion stays outside its base circle when z₁/z₂ ≥ 1 − tan α_a2 / tan α_w', () => {
    let [clear, not] = [0, 0];
    for (const [pinion, ring] of pairs) {
      const { aa2, aw } = angles(pinion, ring);
      const f = checkInternalPair(pinion, ring, { cutterTeeth: 8 }).facts;
      if (!f) continue;
      const outside = pinion.teeth / ring.teeth >= 1 - Math.tan(aa2) / Math.tan(aw);
      const lowest = (gearGeometry(ring).baseDiameter * Math.tan(aa2)) / 2 - f.centreDistance * Math.sin(aw);
      expect(lowest >= 0).toBe(outside);
      // What lies inside the base circle lies below the start of the involute.
      if (!outside) expect(f.belowPinionInvolute).toBeGreaterThan(0);
      if (outside) clear++;
      else not++;
    }
    expect(clear).toBeGreaterThan(5);
    expect(not).toBeGreaterThan(5);
  });
});

describe('internal sizes', () => {
  it('pins laid in the space by search touch where the formula says', () => {
    for (const [spec, pin] of [
      [gear(2, 40, 0.2, 0, { thinning: 0.05, ...short }), 3.4],
      [gear(3, 51, -0.1, 0, short), 5.2],
      [gear(1, 80, 0, 0, short), 1.7],
    ] as const) {
      const m = measureBetweenPins(spec, pin);
      const flank = ringProfile(spec, 2e-6).profile.map(
        (p): Vec2 => [p.radius * Math.cos(p.angle), p.radius * Math.sin(p.angle)],
      );
      const chordAt = (centre: number) => {
        let [nearest, at] = [Infinity, 0];
        for (let i = 0; i + 1 < flank.length; i++) {
          const d = distanceToSegment([centre, 0], flank[i]!, flank[i + 1]!);
          if (d < nearest) [nearest, at] = [d, Math.hypot(...flank[i]!)];
        }
        return { nearest, at };
      };
      // The centre moves out along the space's middle until the circle touches the flank.
      let [low, high] = [
        internalGeometry(spec).tipDiameter / 2 - pin,
        internalGeometry(spec).rootDiameter / 2,
      ];
      for (let i = 0; i < 50; i++) {
        const middle = (low + high) / 2;
        if (chordAt(middle).nearest > pin / 2) low = middle;
        else high = middle;
      }
      const across = spec.teeth % 2 === 0 ? 2 * low : 2 * low * Math.cos(Math.PI / 2 / spec.teeth);
      expect(Math.abs(m.dimension - (across - pin))).toBeLessThan(2e-5);
      expect(Math.abs(m.contactDiameter / 2 - chordAt(low).at)).toBeLessThan(0.15);
    }
    expect(() => measureBetweenPins(gear(2, 40), 30)).toThrow(/pin diameter is 30 mm.*at most/);
  });
  it('span over k spaces is the distance of parallel tangents to the outermost flanks', () => {
    const spec = gear(2, 48, 0.1, 0, { thinning: 0.04, ...short });
    const { profile } = ringProfile(spec);
    const k = 5;
    const middle = ((k - 1) * Math.PI) / spec.teeth;
    // Flanks on either side of k spaces, symmetrical about +X: the furthest the flank reaches across.
    const half = Math.max(...profile.slice(1).map((p) => p.radius * Math.sin(middle + p.angle)));
    const tangent = profile.reduce((a, b) =>
      b.radius * Math.sin(middle + b.angle) > a.radius * Math.sin(middle + a.angle) ? b : a,
    );
    // The jaws touch the flank itself, between ring tip and fillet.
    expect(tangent.radius).toBeGreaterThan(internalGeometry(spec).tipDiameter / 2 + 0.2);
    expect(tangent.radius).toBeLessThan(internalGeometry(spec).rootDiameter / 2 - 0.6);
    expect(internalSpanOver(spec, k).span).toBeCloseTo(2 * half, 3);
    expect(internalSpanOver(spec, k + 1).span - internalSpanOver(spec, k).span).toBeCloseTo(
      gearGeometry(spec).normalBasePitch,
      9,
    );
  });
  it('shift sum ↔ centre distance; backlash closes as the axes part; contact ratio agrees with the exact flanks; seed 20775', () => {
    const real = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(
        fc.integer({ min: 18, max: 40 }),
        fc.integer({ min: 12, max: 60 }),
        real(0, 0.4),
        real(-0.4, 0.1),
        real(0, 30),
        (z1, more, x1, x2, beta) => {
          const [p, r] = [gear(2, z1, x1, beta), gear(2, z1 + more, x2, beta, short)];
          fc.pre(x1 + x2 < 0.15);
          const a = internalCentreDistance(p, r);
          expect(internalShiftSum(p, r, a)).toBeCloseTo(x1 + x2, 7);
          expect(internalBacklash(p, r).circumferential).toBeCloseTo(0, 9);
          expect(internalBacklash(p, r, a + 0.05).circumferential).toBeLessThan(0);
          const f = checkInternalPair(p, r).facts;
          if (f && f.belowPinionInvolute < 0 && f.beyondRingInvolute < 0)
            expect(f.contactRatio).toBeCloseTo(internalContactRatio(p, r), 6);
        },
      ),
      { seed: 20_775, numRuns: 150 },
    );
  });
});

describe('findings of an internal pair', () => {
  it.each([
    ['not-mates', gear(2, 20), gear(2.5, 60, 0, 0, short), {}],
    ['ring-too-small', gear(2, 40), gear(2, 30, 0, 0, short), {}],
    ['internal-tip-below-base', gear(2, 12), gear(2, 26, 0, 0, { rootRadius: 0.2 }), {}],
    ['no-mesh', gear(2, 20, 0.5), gear(2, 60, 0.4, 0, short), {}],
    ['teeth-jam', gear(2, 20), gear(2, 60, 0, 0, short), { centreDistance: 40.1 }],
    ['no-backlash', gear(2, 20), gear(2, 60, 0, 0, short), {}],
    ['internal-involute-interference', gear(2, 16), gear(2, 40, 0, 0, { rootRadius: 0.2 }), {}],
    ['internal-fouling', gear(2, 30), gear(2, 36, 0, 0, short), {}],
    ['no-radial-assembly', gear(2, 30), gear(2, 36, 0, 0, short), {}],
    ['undercut', gear(2, 12), gear(2, 96, 0, 0, short), {}],
    [
      'contact-ratio-below-one',
      gear(2, 20, 0, 0, { addendum: 0.4 }),
      gear(2, 60, 0, 0, { ...short, addendum: 0.3 }),
      {},
    ],
    ['small-tip-clearance', gear(2, 24, 0, 0, { addendum: 1.2 }), gear(2, 80, 0, 0, short), {}],
  ] as const)('%s', (code, pinion, ring, options) => {
    const found = checkInternalPair(pinion, ring, options).findings.find((f) => f.code === code);
    expect(found?.message).toMatch(/^[A-Z].*\.$/);
    expect(found?.remedy).toMatch(/^[A-Z].*\.$/);
  });
});
