import type { Basis } from '../plans.js';
import type { GatingCasting, GatingMetal } from './input.js';

/**
 * How far a feeder feeds along a section as thick as T, in T, sand mould, feeder's edge to casting's end, by the
 * freezing range in °C (the trade's groups I, II and III of copper casting alloys): brasses and aluminium bronzes
 * about 8 T, gunmetals about 4 T (Jay and Cibula; J. Campbell, Complete Casting Handbook, rule 6, from memory); group
 * II is taken between.
 */
export const feedingDistances = [
  { upTo: 50, multiple: 8 },
  { upTo: 110, multiple: 6 },
  { upTo: Number.POSITIVE_INFINITY, multiple: 4 },
] as const;

/**
 * In a hot investment mould metal feeds farther than in sand, whose distances the trade's one-gate castings of small
 * hardware pass two and three times over. Beyond this many times nobody should count on it: own judgement, no source.
 */
export const hotMouldFactor = 5;

/** T, mm: the plate of the casting's own V/A. */
const section = ({ volume, area }: GatingCasting): number => (2 * volume) / area;

/** How far from a gate the metal may have to feed, mm. */
export const reachLimit = (casting: GatingCasting, metal: GatingMetal): number => {
  const { multiple } = feedingDistances.find((g) => metal.freezingRange < g.upTo) ?? feedingDistances[2];
  return hotMouldFactor * multiple * section(casting);
};

export const reachBasis = (metal: GatingMetal): Basis => {
  const { multiple } = feedingDistances.find((g) => metal.freezingRange < g.upTo) ?? feedingDistances[2];
  return {
    rule: `a gate feeds ${multiple} T in sand (T = 2 V/A; freezing range ${metal.freezingRange.toFixed(0)} °C), ${hotMouldFactor} times that in a hot investment mould at most`,
    source: 'J. Campbell, Complete Casting Handbook (from memory); the factor: own judgement, no source',
  };
};

/** Distance of the metal that is farthest from all of the places, mm; arrays from `measureInnerDistances`. */
export const farthest = (distances: readonly Float64Array[]): number => {
  let most = 0;
  const [first] = distances;
  for (let c = 0; c < (first?.length ?? 0); c++) {
    let least = Number.POSITIVE_INFINITY;
    for (const d of distances) least = Math.min(least, d[c] as number);
    if (Number.isFinite(least)) most = Math.max(most, least);
  }
  return most;
};
