/** Colours as people see them: CIE L*a*b* of sRGB, and what is left of them with a colour vision deficiency. */
import type { Rgb } from '../../core/report/freeze/scale.js';

type Triple = readonly [number, number, number];
type Matrix = readonly [Triple, Triple, Triple];

/** IEC 61966-2-1: 8 bits to linear light. */
const linear = (byte: number): number =>
  byte / 255 <= 0.04045 ? byte / 255 / 12.92 : ((byte / 255 + 0.055) / 1.055) ** 2.4;

/**
 * G. M. Machado, M. M. Oliveira and L. A. F. Fernandes, "A physiologically-based model for simulation of color vision
 * deficiency", IEEE Trans. Vis. Comput. Graph. 15(6), 2009, severity 1, for linear light. From memory; every row sums to
 * one, so that greys stay grey, which the test checks.
 */
export const deficiencies: Readonly<Record<'none' | 'protanopia' | 'deuteranopia' | 'tritanopia', Matrix>> = {
  none: [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  protanopia: [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  deuteranopia: [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
  tritanopia: [
    [1.255528, -0.076749, -0.178779],
    [-0.078411, 0.930809, 0.147602],
    [0.004733, 0.691367, 0.3039],
  ],
};

/** sRGB primaries and D65 to CIE XYZ, the white's Y 1 (IEC 61966-2-1). */
const toXyz: Matrix = [
  [0.4124564, 0.3575761, 0.1804375],
  [0.2126729, 0.7151522, 0.072175],
  [0.0193339, 0.119192, 0.9503041],
];

const times = (m: Matrix, v: Triple): Triple =>
  m.map((row) => row[0] * v[0] + row[1] * v[1] + row[2] * v[2]) as unknown as Triple;

const held = (v: number): number => Math.max(0, Math.min(1, v));

/** CIE 1976 L*, a*, b* (ISO/CIE 11664-4). */
export function labOf(rgb: Rgb, seen: Matrix = deficiencies.none): Triple {
  const light = times(seen, rgb.map(linear) as unknown as Triple).map(held) as unknown as Triple;
  const white = times(toXyz, [1, 1, 1]);
  const [x, y, z] = times(toXyz, light).map((v, k) => {
    const t = v / white[k]!;
    return t > 216 / 24389 ? Math.cbrt(t) : (24389 / 27) * (t / 116) + 16 / 116;
  }) as unknown as Triple;
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
}

/** ΔE*ab, CIE 1976: 2.3 is just noticed (M. Mahy, L. Van Eycken and A. Oosterlinck, 1994). */
export const apartBy = (a: Triple, b: Triple): number => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
