import { describe, expect, test } from 'vitest';
import { type Rgb, scaleColour } from '../../../../core/report/freeze/scale.js';
import { apartBy, deficiencies, labOf } from '../../../helpers/colour-vision.js';

const at = (count: number): readonly Rgb[] =>
  Array.from({ length: count + 1 }, (_, i) => scaleColour(i / count));

describe('the helper that looks at colours', () => {
  test('L*a*b* of primaries as tabled for sRGB and D65 (B. Lindbloom’s calculator, from memory)', () => {
    expect(labOf([255, 255, 255])[0]).toBeCloseTo(100, 3);
    const red = labOf([255, 0, 0]);
    [53.24, 80.09, 67.2].forEach((v, k) => {
      expect(red[k]).toBeCloseTo(v, 1);
    });
    const blue = labOf([0, 0, 255]);
    [32.3, 79.19, -107.86].forEach((v, k) => {
      expect(blue[k]).toBeCloseTo(v, 1);
    });
  });
  test('greys stay grey with every colour vision', () => {
    for (const m of Object.values(deficiencies))
      for (const v of [20, 128, 240]) {
        const [, a, b] = labOf([v, v, v], m);
        expect(Math.hypot(a, b)).toBeLessThan(0.05);
      }
  });
  test('red and green of one lightness fall together without the red-sensitive or green-sensitive cones', () => {
    const [red, green]: [Rgb, Rgb] = [
      [180, 90, 60],
      [110, 122, 40],
    ];
    const normal = apartBy(labOf(red), labOf(green));
    expect(
      apartBy(labOf(red, deficiencies.deuteranopia), labOf(green, deficiencies.deuteranopia)),
    ).toBeLessThan(normal / 3);
  });
});

describe('the scale', () => {
  test('lightness L* rises as a straight line, within one of a hundred', () => {
    const all = at(90).map((c) => labOf(c)[0]);
    const [first, last] = [all[0]!, all.at(-1)!];
    all.forEach((l, i) => {
      expect(Math.abs(l - (first + ((last - first) * i) / 90))).toBeLessThan(1);
    });
    expect(last - first).toBeGreaterThan(78);
  });

  test.each(Object.entries(deficiencies))(
    '%s: lighter step by step, and a tenth is seen apart from the next',
    (_, m) => {
      const fine = at(90).map((c) => labOf(c, m));
      fine.slice(1).forEach((lab, i) => {
        expect(lab[0]).toBeGreaterThan(fine[i]![0]);
      });
      const tenths = at(10).map((c) => labOf(c, m));
      // Three times what is just noticed.
      tenths.slice(1).forEach((lab, i) => {
        expect(apartBy(lab, tenths[i]!)).toBeGreaterThan(3 * 2.3);
      });
    },
  );

  test('in print in grey, tenths are apart by 7 of lightness at least', () => {
    const grey = at(10).map((c) => labOf(c)[0]);
    grey.slice(1).forEach((l, i) => {
      expect(l - grey[i]!).toBeGreaterThan(7);
    });
  });

  test('beyond the ends it stays', () => {
    expect(scaleColour(-3)).toEqual(scaleColour(0));
    expect(scaleColour(7)).toEqual(scaleColour(1));
  });
});
