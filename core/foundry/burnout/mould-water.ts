/** The water in a mould as it goes into the kiln, and the heat that drives it off. */
import { type Investment, slurryDensity } from '../investment.js';
import type { LatentHeat } from './conduction.js';

/** g of water bound in setting to a gram of powder, once set: nothing where the binder takes up none worth naming. */
const boundPerPowder: Readonly<Record<string, number>> = {
  // 28 % of hemihydrate (145.15 g/mol) set to dihydrate holds 2 H₂O (36.03 g/mol): share from memory, 25 to 30 %.
  'gypsum-bonded': (0.28 * 36.03) / 145.15,
};
/** Hemihydrate brings a quarter of the dihydrate's water with it. */
const fromMix = 0.75;

/** J/g to boil water at 100 °C: steam tables. */
const boiling = 2257;
/** J/g of water set free from gypsum, steam included: ΔH 83 kJ to 1.5 mol H₂O (27.02 g), from memory. */
const freeing = 83_000 / 27.02;

/**
 * g of water to a gram of dry mould below which it no longer wicks to the skin: critical moisture of sand of 200 to
 * 325 mesh, 10 % (silica brick mix 8 %, flint clay refractory mix 13 %: Perry's table of critical moistures, from
 * memory). The investment's fillers are flours of about that mesh.
 */
const criticalMoisture = 0.1;

export interface MouldWater {
  /** g/mm³ of mould: in the pores, and bound. */
  readonly free: number;
  readonly bound: number;
  /** Of the free water, what cannot wick to the skin and boils off inside, behind a front that recedes. */
  readonly inside: number;
}

/**
 * All the water of the mix, nothing lost in standing; of a shell what its drying left.
 * @param ratio g of water per g of powder; default the investment's
 */
export function mouldWater(investment: Investment, ratio?: number): MouldWater {
  if (investment.coats) {
    const left = investment.mould.density * investment.coats.residualWater;
    return { free: left, bound: 0, inside: left };
  }
  const waterRatio = ratio ?? investment.waterRatio;
  const powder = slurryDensity(waterRatio, investment.powderDensity) / (1 + waterRatio);
  const bound = Math.min(boundPerPowder[investment.name] ?? 0, waterRatio / fromMix);
  const free = powder * (waterRatio - fromMix * bound);
  return { free, bound: powder * bound, inside: Math.min(free, powder * criticalMoisture) };
}

/**
 * What the mould's inside must take up to dry. Water inside boils at 100 °C; gypsum gives up three quarters of its
 * own to 125 °C, the rest to 160 °C (from memory). Water that wicks to the skin takes the kiln's heat, not the mould's.
 */
export const waterHeats = ({ inside, bound }: MouldWater): readonly LatentHeat[] =>
  [
    { from: 99, to: 101, heat: inside * boiling },
    { from: 101, to: 125, heat: bound * fromMix * freeing },
    { from: 125, to: 160, heat: bound * (1 - fromMix) * freeing },
  ].filter((l) => l.heat > 0);

/** J to heat the water from `start` and turn it to steam, for each mm³ of mould: 4.19 J/(g·K) to 100 °C. */
export const waterHeat = ({ free, bound }: MouldWater, start: number): number =>
  free * (4.19 * (100 - start) + boiling) + bound * freeing;
