import { describe, expect, it } from 'vitest';
import { inv, inverseInvolute } from '../../../core/gear/involute.js';

describe('involute function', () => {
  it('series and closed form meet without a step', () => {
    // α³/3 + 2α⁵/15 + 17α⁷/315: the Maclaurin series of tan α less α (Abramowitz & Stegun 4.3.67).
    const series = (a: number) => a ** 3 / 3 + (2 * a ** 5) / 15 + (17 * a ** 7) / 315 + (62 * a ** 9) / 2835;
    for (const a of [1e-6, 1e-3, 0.02, 0.03]) {
      expect(Math.abs(inv(a) / series(a) - 1)).toBeLessThan(1e-11);
    }
    expect(Math.abs(inv(0.1 + 1e-13) / inv(0.1 - 1e-13) - 1)).toBeLessThan(1e-11);
    expect(inv(0)).toBe(0);
    expect(inverseInvolute(0)).toBe(0);
  });

  it('goes back and forth over twenty decades', () => {
    for (let exponent = -12; exponent <= 8; exponent++) {
      const value = 3.7 * 10 ** exponent;
      const angle = inverseInvolute(value);
      expect(angle).toBeGreaterThan(0);
      expect(angle).toBeLessThan(Math.PI / 2);
      // Near π/2 one rounding of the angle moves its tangent by 1e-16 tan² α.
      const relative = Math.max(1e-13, 4e-16 * (Math.tan(angle) ** 2 / value));
      expect(Math.abs(inv(angle) / value - 1)).toBeLessThan(relative);
    }
  });

  it('refuses what has no involute', () => {
    for (const bad of [-0.1, Math.PI / 2, 2, Number.NaN])
      expect(() => inv(bad)).toThrow(/from 0 to below π\/2/);
    for (const bad of [-1e-9, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(() => inverseInvolute(bad)).toThrow(/must be 0 or more/);
    }
  });
});
