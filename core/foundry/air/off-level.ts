import type { Basis } from '../plans.js';
import { type Leaning, offLevelBasis, worstLeaning } from './leaning.js';
import type { OffLevelAir } from './plan.js';
import { plainPocket } from './pockets.js';

/** What the worst way of leaning traps in pockets from a volume on. */
export function offLevelAir(leanings: readonly Leaning[], least: number): OffLevelAir {
  const { volume, pockets, azimuth } = worstLeaning(leanings, least);
  const [largest] = pockets;
  return {
    volume,
    places: pockets.length,
    toward: azimuth,
    ...(largest ? { largest: plainPocket(largest) } : {}),
  };
}

/** Where the numbers of an air plan come from. */
export const airBases: Readonly<Record<string, Basis>> = {
  pockets: {
    rule: 'cavity above the saddle where air loses its way up to cup or vent, and what lies behind it',
    source: 'join tree of height (H. Carr, J. Snoeyink, U. Axen, 2003); volume by the divergence theorem',
  },
  threshold: { rule: 'pockets from 0.05 ml are told', source: 'common practice, no source' },
  offLevel: offLevelBasis,
  outflow: {
    rule: 'pipe friction 32 μ L v/d² and 1.5 velocity heads, all vents at one pressure; air at 400 °C',
    source: 'Hagen and Poiseuille; air by Incropera, table A.4 (from memory)',
  },
};
