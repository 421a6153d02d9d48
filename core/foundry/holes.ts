/** Which holes a plaster core can carry, by depth to diameter. */
import { checkPositive } from './input.js';
import type { Basis } from './plans.js';

export type HoleKind = 'through' | 'blind';

export interface CoreLimit {
  /** False: leave the hole solid and drill it. */
  readonly castable: boolean;
  /** Deepest hole of this diameter the mould can core, mm; 0 when it is not castable. */
  readonly maxDepth: number;
  readonly basis: Basis;
}

/** Below this a plaster core breaks off while the slurry is vibrated. Guides for fired shells start here too. */
const smallestThrough = 2;
/** Below 3/8 in the third guide allows a blind hole only as deep as wide. */
const blindKnee = 9.525;

/**
 * Three investment-foundry guides for cores in fired shell: through ø2–3: 2 D, ø4–7: 5 D, from ø8: 10 D, blind 1,
 * 2.5, 3.5 D; through 5 D, blind 2 D; blind 1 D below 3/8 in, rising to 2 D. Plaster is weaker than fired shell,
 * so the smallest figure of the three stands at each diameter. Diameters between the printed bands (3 to 4 mm)
 * belong to the band below. The rise of the third guide is read as straight from 1 D at 3/8 in to 2 D at 3/4 in.
 * @param diameter of the hole as cast, mm, > 0
 * @throws FoundryInputError when the diameter is not greater than zero.
 */
export function coreLimit(diameter: number, kind: HoleKind): CoreLimit {
  checkPositive('diameter', diameter, 'mm');
  const ratio = kind === 'through' ? throughRatio(diameter) : blindRatio(diameter);
  return {
    castable: ratio > 0,
    maxDepth: ratio * diameter,
    basis: {
      rule: ratio > 0 ? `${kind} hole, depth ≤ ${ratio.toFixed(1)} D` : 'too small to core: drill it',
      source: 'Smallest of three investment-foundry design guides, plaster being weaker than fired shell',
    },
  };
}

function throughRatio(d: number): number {
  if (d < smallestThrough) return 0;
  return d < 4 ? 2 : 5;
}

function blindRatio(d: number): number {
  // A blind plaster core stands on one end only: the shell guides' ø2–3 band is not trusted for it.
  if (d < 4) return 0;
  return Math.min(2, Math.max(1, d / blindKnee));
}
