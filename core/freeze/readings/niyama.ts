import { type CastFields, cellRole } from '../cast-fields.js';
import type { FreezePlan } from '../plans.js';
import { CellWalk, holdsMetal } from './cells.js';

/**
 * Niyama's limit, √(K·s)/mm: 1 √(K·min)/cm, times √60/10 (E. Niyama, T. Uchida, M. Morikawa and S. Saito, AFS
 * International Cast Metals Journal 7, 1982, from memory). Found on steel plates in sand moulds, for shrinkage on their
 * middle plane. In hot plaster, and in alloys that freeze over a wide range, gradients are small: a third to a half of the
 * metal lies under it whatever the gating and pores are spread, so there it ranks gatings and is no limit.
 */
export const niyamaLimit = Math.sqrt(60) / 10;

/** Cells with less metal than this have no gradient of their own. */
const wholeEnough = 0.5;

/** G/√Ṫ of the castings: the least, and which share of their metal lies under the limit; both 0 without castings. */
export function readNiyama(fields: CastFields): FreezePlan['niyama'] {
  const { grid, role, share, gradient, coolingRate } = fields;
  const walk = new CellWalk(fields);
  let [least, all, under] = [Number.POSITIVE_INFINITY, 0, 0];
  for (let c = 0; c < grid.size; c++) {
    if (role[c] !== cellRole.casting || share[c]! < wholeEnough || !holdsMetal(fields, c)) continue;
    const rate = coolingRate[c]!;
    // Not seen where metal had no time to cool or never froze.
    if (!(rate > 0)) continue;
    const value = gradient[c]! / Math.sqrt(rate);
    const metal = walk.metal(c);
    all += metal;
    if (value < niyamaLimit) under += metal;
    if (value < least) least = value;
  }
  return { limit: niyamaLimit, below: all === 0 ? 0 : under / all, least: all === 0 ? 0 : least };
}
