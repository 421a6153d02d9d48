/**
 * Colours from a dark violet over red to a light yellow, as metal glows: the hues of `inferno` (S. van der Walt and
 * N. Smith, 2015, given to the public domain), spaced anew so that CIE lightness L* rises by 81 in nine even steps. It
 * rises for people with any colour vision, and in print in grey: the test measures it.
 */
const points = [
  0x2d0c51, 0x530f6b, 0x7c1d6c, 0xa52c60, 0xca4149, 0xe55f2e, 0xf48215, 0xfaa813, 0xf7ce3a, 0xfaee7e,
] as const;

/** Red, green, blue, 0 to 255. */
export type Rgb = readonly [number, number, number];

const channels = (hex: number): Rgb => [hex >> 16, (hex >> 8) & 255, hex & 255];

/** The colour at 0 (dark) to 1 (light); beyond the ends, the ends'. */
export function scaleColour(at: number): Rgb {
  const t = Math.max(0, Math.min(1, at)) * (points.length - 1);
  const i = Math.min(points.length - 2, Math.floor(t));
  const [a, b] = [channels(points[i]!), channels(points[i + 1]!)];
  return [0, 1, 2].map((k) => Math.round(a[k]! + (b[k]! - a[k]!) * (t - i))) as unknown as Rgb;
}

export const hexColour = (rgb: Rgb): string => `#${rgb.map((v) => v.toString(16).padStart(2, '0')).join('')}`;
