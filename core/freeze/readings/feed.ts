import type { Alloy, AlloyFamily } from '../../foundry/alloys/index.js';
import type { GatingPlan } from '../../foundry/plans.js';
import type { FreezePlan } from '../plans.js';

/**
 * How much liquid metal grows by heat, in volume, 1/K, at the melting point: −(dρ/dT)/ρ of the pure metal that the
 * family is mostly of (T. Iida and R. I. L. Guthrie, The Physical Properties of Liquid Metals, 1988, from memory:
 * copper 8000 − 0.80 ΔT kg/m³, aluminium 2380 − 0.28, zinc 6580 − 1.10, iron 7020 − 0.88, tin 6980 − 0.61, silver
 * 9330 − 0.91).
 */
export const liquidExpansion: Readonly<Record<AlloyFamily, number>> = {
  copper: 1.0e-4,
  aluminium: 1.2e-4,
  zinc: 1.7e-4,
  iron: 1.3e-4,
  tin: 0.9e-4,
  silver: 1.0e-4,
};

/**
 * mm³: what the castings draw as they cool from the pour to the liquidus and freeze, and what can be given. Freezing and
 * supply are the gating plan's own figures, so that both always say the same: cup and sprue by the feeder's efficiency,
 * runners not counted. The cooling liquid's part is added to them here.
 * @param volume mm³ of the castings
 * @param poured °C
 */
export function readFeed(
  { fill }: Pick<GatingPlan, 'fill'>,
  alloy: Pick<Alloy, 'family' | 'liquidus'>,
  volume: number,
  poured: number,
): FreezePlan['feed'] {
  const cooling = liquidExpansion[alloy.family] * Math.max(0, poured - alloy.liquidus);
  return { demand: fill.feedDemand + cooling * volume, supply: fill.feedSupply };
}
