/** The bench's own check of a charge: weigh the gated pattern and multiply. */
import { checkPositive } from '../input.js';
import type { Material } from '../material.js';

export interface BenchCheck {
  readonly name: string;
  /** What the gated pattern weighs, printed solid, g. */
  readonly pattern: number;
  /** Metal for a gram of it. */
  readonly ratio: number;
  /** Metal in the mould, g. */
  readonly metal: number;
}

/**
 * The ratio is that of the densities over the growth in volume, since the pattern is larger than the casting: about
 * 5 % less than the densities alone for bronze. It holds for a solid print only. Sparse infill weighs less than its
 * volume, and the product is then too small; the volume of the drawing does not mind.
 * @param volume gated pattern, mm³
 * @param metal in its mould, g
 */
export function benchCheck(name: string, volume: number, metal: number, plastic: Material): BenchCheck {
  const pattern = checkPositive(`${name} volume`, volume, 'mm³') * plastic.density;
  return { name, pattern, ratio: checkPositive(`${name} metal`, metal, 'g') / pattern, metal };
}
