import { describe, expect, it } from 'vitest';
import { gearFromRack } from '../../../core/gear/basic-rack.js';
import type { GearSpec } from '../../../core/gear/spec.js';
import { type ToothForm, toothForm } from '../../../core/gear/tooth-form.js';
import { planPitch, wholeOutline } from '../../../core/gear/transverse-profile.js';
import { distanceToSegment } from '../../../core/solid/sample-curve.js';
import type { Vec2 } from '../../../core/solid/types.js';
import { rackOracle } from '../../helpers/rack-oracle.js';

const degrees = Math.PI / 180;

/** Tooth numbers, shifts and helix angles from the undercut to the pointed end of the legal space. */
const cases: readonly [z: number, x: number, beta: number, rack: 'A' | 'B' | 'C' | 'D'][] = [
  [8, 0, 0, 'A'],
  [8, -0.5, 0, 'A'],
  [8, 0.5, 0, 'C'],
  [9, -0.3, 20, 'B'],
  [12, 0.3, 20, 'A'],
  [17, 0, 0, 'D'],
  [20, -0.5, 35, 'A'],
  [24, 0.8, 15, 'C'],
  [40, 0, 25, 'A'],
  [63, -0.5, 10, 'B'],
  [120, 0.8, 35, 'A'],
  [120, -0.5, 0, 'D'],
];

const formOf = (spec: GearSpec, options = {}): ToothForm => {
  const result = toothForm(spec, options);
  if (!result.ok) throw new Error(result.findings.map((f) => f.message).join());
  return result.form;
};

const oracleOf = (spec: GearSpec) =>
  rackOracle({
    ...spec,
    tipDiameter:
      (spec.normalModule * spec.teeth) / Math.cos(spec.helixAngle) +
      2 * spec.normalModule * (spec.addendum + spec.profileShift),
  });

describe('tooth form against a brute-force cut by the rack', () => {
  it.each(cases)('z %i, x %d, β %d°, rack %s', (z, x, beta, rack) => {
    const spec = gearFromRack(rack, {
      normalModule: 2,
      teeth: z,
      profileShift: x,
      helixAngle: beta * degrees,
      thinning: 0.06,
    });
    const form = formOf(spec);
    const oracle = oracleOf(spec);
    let worst = 0;
    for (const curve of form.curves) {
      for (let i = 0; i <= 40; i++) {
        const [px, py] = curve.at(curve.from + ((curve.to - curve.from) * i) / 40);
        worst = Math.max(worst, Math.abs(oracle.distanceToTooth(px, py)));
      }
    }
    expect(worst).toBeLessThan(5e-6);
    expect(form.rootRadius).toBeCloseTo(oracle.rootRadius, 9);

    const tolerance = 0.01;
    const pitch = planPitch(form, tolerance).sample();
    const outline = [...pitch.points, wholeOutline(pitch)[pitch.points.length] as Vec2];
    let lost = 0;
    for (const p of oracle.profile) {
      let nearest = Number.POSITIVE_INFINITY;
      for (let i = 0; i + 1 < outline.length; i++) {
        nearest = Math.min(
          nearest,
          distanceToSegment([p.x, p.y], outline[i] as Vec2, outline[i + 1] as Vec2),
        );
      }
      lost = Math.max(lost, nearest);
    }
    expect(lost).toBeLessThan(tolerance);
    expect(lost).toBeGreaterThan(0.2 * tolerance); // no more points than the tolerance asks for
  });
});

describe('flank stock', () => {
  it.each(cases)(
    'z %i, x %d, β %d°, rack %s: the casting stands off by the stock, fillet and root too',
    (z, x, beta, rack) => {
      const spec = gearFromRack(rack, {
        normalModule: 2,
        teeth: z,
        profileShift: x,
        helixAngle: beta * degrees,
      });
      const stock = 0.1;
      const form = formOf(spec, { flankStock: stock });
      const oracle = oracleOf(spec);
      expect(form.rootRadius - oracle.rootRadius).toBeCloseTo(stock, 9);
      for (const curve of form.curves) {
        for (let i = 1; i < 20; i++) {
          const [px, py] = curve.at(curve.from + ((curve.to - curve.from) * i) / 20);
          // Where the part's own tip corner or undercut corner is nearest, the casting stands further off.
          const r = Math.hypot(px, py);
          if (
            r > oracle.tipRadius - 2 * stock ||
            (form.undercut && Math.abs(r - form.formRadius) < 3 * stock)
          )
            continue;
          expect(Math.abs(oracle.normalDistanceToTooth(px, py) - stock)).toBeLessThan(1e-4);
        }
      }
    },
  );
});

describe('tip rounding', () => {
  it('is tangent to flank and tip cylinder and no larger than fits', () => {
    const spec = gearFromRack('A', { normalModule: 2, teeth: 20 });
    const form = formOf(spec, { tipRounding: 0.4 });
    const rounding = form.curves[0] as (typeof form.curves)[number];
    const flank = form.curves[1] as (typeof form.curves)[number];
    const [ax, ay] = rounding.at(rounding.to);
    const [bx, by] = flank.at(flank.from);
    expect(Math.hypot(ax - bx, ay - by)).toBeLessThan(1e-9);
    const [cx, cy] = rounding.at(rounding.from);
    expect(Math.hypot(cx, cy)).toBeCloseTo(form.tipRadius, 9);
    const direction = (c: typeof flank, t: number, dt: number): number => {
      const [p, q] = [c.at(t), c.at(t + dt)];
      return Math.atan2(q[1] - p[1], q[0] - p[0]);
    };
    expect(direction(rounding, rounding.to, -1e-6)).toBeCloseTo(direction(flank, flank.from, 1e-6), 3);
    const full = formOf(spec, { tipRounding: 3 });
    expect(full.tipRounding).toBeLessThan(3);
    expect(full.tipHalfAngle).toBeLessThan(1e-6);
  });
});

describe('refusals', () => {
  it.each([
    ['pointed-tooth', { teeth: 6, profileShift: 0.9 }],
    ['root-at-axis', { teeth: 3, profileShift: -0.5 }],
    ['root-radius-too-large', { teeth: 20, rootRadius: 0.6 }],
  ] as const)('%s', (code, change) => {
    const result = toothForm(gearFromRack('A', { normalModule: 2, ...change }));
    expect(result.ok ? 'made' : result.findings.map((f) => f.code)).toEqual([code]);
  });
});
