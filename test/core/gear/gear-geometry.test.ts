import { describe, expect, it } from 'vitest';
import { basicRackProfiles, gearFromRack, maxRootRadius } from '../../../core/gear/basic-rack.js';
import {
  gearGeometry,
  helixAngleAt,
  isUndercut,
  normalThicknessAt,
  pressureAngleAt,
  rootFormDiameter,
  tipThickness,
  transverseThicknessAt,
} from '../../../core/gear/gear-geometry.js';
import { rackOracle } from '../../helpers/rack-oracle.js';
import { deg, gear } from './gear-cases.js';

const oracleOf = (spec: ReturnType<typeof gear>) =>
  rackOracle({ ...spec, tipDiameter: gearGeometry(spec).tipDiameter }, 1e-4);

const cases = [
  gear(2, 40),
  gear(3, 12, 0.6),
  gear(2, 25, 0.3, 30, { thinning: 0.12 }),
  gear(4, 18, -0.1, 20, basicRackProfiles.D),
  gear(1.5, 90, 0.8, 10, { thinning: 0.05, tipShortening: 0.2 }),
  gear(2.5, 30, 0, 15, { normalPressureAngle: 25 * deg, rootRadius: 0.2 }),
];

describe('gear geometry against the rolled rack', () => {
  it.each(cases)(
    'tooth thickness, root and form diameter: m $normalModule z $teeth x $profileShift',
    (spec) => {
      const g = gearGeometry(spec);
      const oracle = oracleOf(spec);
      expect(g.rootDiameter / 2).toBeCloseTo(oracle.rootRadius, 12);
      const form = rootFormDiameter(spec) / 2;
      for (const t of [0.001, 0.3, 0.7, 1]) {
        const radius = form + t * (g.tipDiameter / 2 - form);
        expect(transverseThicknessAt(spec, 2 * radius)).toBeCloseTo(
          2 * radius * oracle.halfAngleAt(radius),
          10,
        );
      }
      // Below the form diameter the rounding cuts, and leaves more metal than the involute would.
      const below = Math.max(form * 0.995, g.baseDiameter / 2 + 1e-9);
      if (form - below > 0.004 * form) {
        expect(
          2 * below * oracle.halfAngleAt(below) - transverseThicknessAt(spec, 2 * below),
        ).toBeGreaterThan(1e-7);
      }
      expect(transverseThicknessAt(spec, g.referenceDiameter)).toBeCloseTo(g.transverseThickness, 12);
      expect(normalThicknessAt(spec, g.referenceDiameter)).toBeCloseTo(g.normalThickness, 12);
      expect(tipThickness(spec)).toBeCloseTo(
        2 *
          oracle.tipRadius *
          oracle.halfAngleAt(oracle.tipRadius) *
          Math.cos(helixAngleAt(spec, g.tipDiameter)),
        9,
      );
    },
  );

  it('undercut as the rack makes it: metal is missing from the involute exactly when x < x_min', () => {
    for (const spec of [
      gear(2, 12),
      gear(2, 14, -0.2, 20),
      gear(1, 8, -0.5),
      gear(2, 30),
      gear(2, 12, 0.35),
    ]) {
      const radius = (gearGeometry(spec).baseDiameter / 2) * 1.0001;
      const lost = transverseThicknessAt(spec, 2 * radius) - 2 * radius * oracleOf(spec).halfAngleAt(radius);
      expect(lost > 1e-6).toBe(isUndercut(spec));
    }
  });

  it('the pointed tip: thickness 0 where the rolled rack’s flanks meet', () => {
    const spec = gear(2, 9, 0.9, 0, { tipShortening: -1 });
    expect(tipThickness(spec)).toBeLessThan(0);
    const oracle = oracleOf(spec);
    expect(oracle.tipRadius).toBeLessThan(gearGeometry(spec).tipDiameter / 2);
    expect(transverseThicknessAt(spec, 2 * oracle.tipRadius)).toBeCloseTo(0, 8);
  });
});

describe('relations between the sizes', () => {
  it.each(cases)('pitches and base helix: m $normalModule β $helixAngle', (spec) => {
    const g = gearGeometry(spec);
    // ISO 21771:2007: cos β_b = cos β cos α_n / cos α_t; tan β_b = tan β cos α_t.
    const { helixAngle: beta, normalPressureAngle: alpha } = spec;
    expect(Math.cos(g.baseHelixAngle)).toBeCloseTo(
      (Math.cos(beta) * Math.cos(alpha)) / Math.cos(g.transversePressureAngle),
      13,
    );
    expect(helixAngleAt(spec, g.baseDiameter)).toBeCloseTo(g.baseHelixAngle, 13);
    expect(g.transverseBasePitch).toBeCloseTo((Math.PI * g.baseDiameter) / spec.teeth, 12);
    expect(g.normalBasePitch).toBeCloseTo(g.transverseBasePitch * Math.cos(g.baseHelixAngle), 12);
    expect(pressureAngleAt(spec, g.referenceDiameter)).toBeCloseTo(g.transversePressureAngle, 12);
    if (beta > 0) expect(g.lead).toBeCloseTo((Math.PI * g.referenceDiameter) / Math.tan(beta), 9);
    else expect(g.lead).toBe(Number.POSITIVE_INFINITY);
  });

  it('no involute below the base circle', () => {
    const spec = gear(2, 20);
    expect(() => transverseThicknessAt(spec, 37)).toThrow(/starts at the base circle, 37\.58/);
    expect(transverseThicknessAt(spec, gearGeometry(spec).baseDiameter)).toBeGreaterThan(0);
  });

  it('largest rounding of a rack tip: the rolled rack takes it and refuses a thousandth more', () => {
    const spec = gear(2, 30, 0, 0, { thinning: 0.1 });
    const largest = maxRootRadius(spec, 0.05);
    expect(() => oracleOf({ ...spec, rootRadius: largest - 1e-9 })).not.toThrow();
    expect(() => oracleOf({ ...spec, rootRadius: largest + 1e-3 })).toThrow();
    // ISO 53 full fillet at α 20°, h_f 1.25: 0.4719 (from memory, tool makers' figure).
    expect(maxRootRadius(basicRackProfiles.A)).toBeCloseTo(0.4719, 4);
  });

  it('a gear from a rack by name', () => {
    expect(gearFromRack('D', { normalModule: 2, teeth: 21, profileShift: 0.1 })).toEqual({
      ...basicRackProfiles.D,
      normalModule: 2,
      teeth: 21,
      profileShift: 0.1,
      helixAngle: 0,
      thinning: 0,
    });
  });
});
