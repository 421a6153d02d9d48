import { maths } from '../../maths/maths.js';
import type { Vec3 } from '../../solid/types.js';
import { type Cavity, turnCavity } from './cavity.js';
import { cropToTops } from './crop.js';
import { type FoundPocket, leastPocket, searchAbove, searchPockets, totalVolume } from './pockets.js';

/** How far off level a flask may stand at the pour, radians: set by a level at best to a degree or two. */
export const offLevelAngle = (2 * Math.PI) / 180;
export const offLevelBasis = {
  rule: 'poured up to 2° off level, eight ways; vented from 0.03 ml, as a place may hold more between two ways',
  source: 'common practice, no source',
} as const;

export const leaningWays = 8;

/** What stands upright when a mould leans by `angle` with its side at `azimuth` (from +x towards +y) high, radians. */
export const upWhenLeaning = (angle: number, azimuth: number): Vec3 => [
  maths.sin(angle) * maths.cos(azimuth),
  maths.sin(angle) * maths.sin(azimuth),
  maths.cos(angle),
];

/** One way of leaning, with what it traps. */
export interface Leaning {
  readonly azimuth: number;
  /** Seen so where it has pockets. */
  readonly cavity: Cavity;
  readonly up: Vec3;
  /** From six tenths of the threshold on. */
  readonly pockets: readonly FoundPocket[];
}

/** What is vented, mm³: a pocket may be larger between two of the ways. */
export const leastVented = 0.6 * leastPocket;

/** All ways at one angle. */
export function searchLeanings(
  cavity: Cavity,
  isOpen: (vertex: number) => boolean,
  angle = offLevelAngle,
): readonly Leaning[] {
  const crop = cropToTops(cavity, angle);
  const options = { isOpen, least: leastVented };
  const cropOptions = crop && { ...options, isOpen: (v: number) => isOpen(crop.numbers[v]!) };
  return Array.from({ length: leaningWays }, (_, i) => {
    const azimuth = (2 * Math.PI * i) / leaningWays;
    const up = upWhenLeaning(angle, azimuth);
    const cropped = crop && searchAbove(turnCavity(crop.cavity, up), cropOptions!, crop.floor);
    const turned = cropped?.pockets.length === 0 ? cavity : turnCavity(cavity, up);
    const pockets = cropped
      ? cropped.pockets.map((p) => inWhole(p, crop.numbers))
      : searchPockets(turned, options).pockets;
    return { azimuth, cavity: turned, up, pockets };
  });
}

const inWhole = (pocket: FoundPocket, numbers: Uint32Array): FoundPocket => ({
  ...pocket,
  peak: numbers[pocket.peak]!,
  vertices: pocket.vertices.map((v) => numbers[v]!),
});

/** Of the pockets that are vented, mm³. */
export const ventedVolume = (leanings: readonly Leaning[]): number =>
  leanings.reduce((sum, l) => sum + totalVolume(l.pockets), 0);

/** Pockets from a volume on, of the way with most. */
export function worstLeaning(
  leanings: readonly Leaning[],
  least = leastPocket,
): {
  readonly azimuth: number;
  readonly pockets: readonly FoundPocket[];
  readonly volume: number;
} {
  const told = leanings.map(({ azimuth, pockets }) => {
    const large = pockets.filter((p) => p.volume >= least);
    return { azimuth, pockets: large, volume: totalVolume(large) };
  });
  return told.reduce((a, b) => (b.volume > a.volume ? b : a));
}
