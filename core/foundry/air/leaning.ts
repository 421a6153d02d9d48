import type { Vec3 } from '../../solid/types.js';
import { type Cavity, turnCavity } from './cavity.js';
import { type FoundPocket, leastPocket, searchPockets, totalVolume } from './pockets.js';

/** How far off level a flask may stand at the pour, radians: set by a level at best to a degree or two. */
export const offLevelAngle = (2 * Math.PI) / 180;
export const offLevelBasis = {
  rule: 'poured up to 2° off level, eight ways',
  source: 'common practice, no source',
} as const;

export const leaningWays = 8;

/** What stands upright when a mould leans by `angle` with its side at `azimuth` (from +x towards +y) high, radians. */
export const upWhenLeaning = (angle: number, azimuth: number): Vec3 => [
  Math.sin(angle) * Math.cos(azimuth),
  Math.sin(angle) * Math.sin(azimuth),
  Math.cos(angle),
];

/** One way of leaning, with what it traps. */
export interface Leaning {
  readonly azimuth: number;
  readonly cavity: Cavity;
  readonly up: Vec3;
  readonly pockets: readonly FoundPocket[];
  /** Of the pockets told, mm³. */
  readonly volume: number;
}

export function searchLeaning(
  cavity: Cavity,
  openHeight: number,
  angle: number,
  azimuth: number,
  least = leastPocket,
): Leaning {
  const up = upWhenLeaning(angle, azimuth);
  const turned = turnCavity(cavity, up);
  const { pockets } = searchPockets(turned, { openHeight, least });
  return { azimuth, cavity: turned, up, pockets, volume: totalVolume(pockets) };
}

/** All ways at one angle. */
export const searchLeanings = (
  cavity: Cavity,
  openHeight: number,
  angle = offLevelAngle,
): readonly Leaning[] =>
  Array.from({ length: leaningWays }, (_, i) =>
    searchLeaning(cavity, openHeight, angle, (2 * Math.PI * i) / leaningWays),
  );

export const worstLeaning = (leanings: readonly Leaning[]): Leaning =>
  leanings.reduce((a, b) => (b.volume > a.volume ? b : a));
