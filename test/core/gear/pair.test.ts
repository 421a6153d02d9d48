import { describe, expect, it } from 'vitest';
import { gearGeometry } from '../../../core/gear/gear-geometry.js';
import {
  backlash,
  centreDistance,
  overlapRatio,
  pathOfContact,
  profileShiftSum,
  workingPressureAngle,
  workingPressureAngleAt,
} from '../../../core/gear/pair.js';
import { rackOracle } from '../../helpers/rack-oracle.js';
import { deg, gear } from './gear-cases.js';

describe('gear pair', () => {
  it('two rolled gears at the computed centre distance touch on both flanks and do not overlap', () => {
    for (const [a, b] of [
      [gear(2, 20, 0.3), gear(2, 33, 0.2)],
      [gear(3, 15, 0.5), gear(3, 15, 0.5)],
      [gear(2, 25, 0.1, 20), gear(2, 40, -0.2, 20)],
    ] as const) {
      const distance = centreDistance(a, b);
      const rolled = [a, b].map((spec) =>
        rackOracle({ ...spec, tipDiameter: gearGeometry(spec).tipDiameter - 0.4 * spec.normalModule }, 1e-5),
      );
      const [first, second] = [rolled[0]!, rolled[1]!];
      // Gear 1 has a tooth on +X, so gear 2 at (a, 0) shows a space there: turned by half a pitch and by π.
      const clearanceAt = (centres: number, turn: number) => {
        let least = Infinity;
        for (const p of first.profile) {
          for (const side of [1, -1]) {
            const dx = p.x - centres;
            const dy = side * p.y;
            const angle = Math.PI - Math.PI / b.teeth + turn;
            const x = dx * Math.cos(angle) - dy * Math.sin(angle);
            const y = dx * Math.sin(angle) + dy * Math.cos(angle);
            least = Math.min(least, second.distanceToTooth(x, y));
          }
        }
        return least;
      };
      expect(Math.abs(clearanceAt(distance, 0))).toBeLessThan(1e-4);
      expect(clearanceAt(distance - 0.05, 0)).toBeLessThan(-0.01);
      const play = backlash(a, b, distance + 0.05);
      // Half the play on each side; in the section it is the normal play over cos β_b.
      const half = play.normal / Math.cos(gearGeometry(a).baseHelixAngle) / 2;
      expect(clearanceAt(distance + 0.05, 0)).toBeCloseTo(half, 4);
    }
  });

  it('thinning on both gears adds up to the backlash, normal: (Δs_1 + Δs_2) cos α_n', () => {
    const a = gear(2, 20, 0, 15, { thinning: 0.04 });
    const b = gear(2, 30, 0, 15, { thinning: 0.06 });
    expect(backlash(a, b).normal).toBeCloseTo(0.1 * Math.cos(20 * deg), 10);
    expect(backlash(gear(2, 20, 0.4), gear(2, 30, 0.3)).circumferential).toBeCloseTo(0, 10);
  });

  it('interference is reported and shortens the path', () => {
    const clean = pathOfContact(gear(2, 20), gear(2, 40));
    expect(clean.interferesOnGear || clean.interferesOnMate).toBe(false);
    expect(clean.length).toBe(clean.nominalLength);
    // 12 teeth with 60: Machinery's Handbook gives 17 as the least pinion free of interference with a rack at 20°.
    const cut = pathOfContact(gear(2, 12), gear(2, 60));
    expect(cut.interferesOnGear).toBe(true);
    expect(cut.length).toBeLessThan(cut.nominalLength);
  });

  it('errors name both values', () => {
    expect(() => centreDistance(gear(2, 20), gear(2.5, 20))).toThrow(/normalModule is 2 .* 2\.5/);
    expect(() => workingPressureAngle(gear(2, 10, -1), gear(2, 10, -0.5))).toThrow(/shift sum is -1\.5/);
    expect(() => workingPressureAngleAt(gear(2, 20), gear(2, 20), 30)).toThrow(/is 30 mm.*at least 37\.58/);
    expect(() => profileShiftSum(gear(2, 20), gear(2, 20), Number.NaN)).toThrow(/centre distance is NaN/);
    expect(overlapRatio(gear(2, 20), 30)).toBe(0);
  });
});
