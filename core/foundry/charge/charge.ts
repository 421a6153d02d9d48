/** What to weigh out for one alloy's melt, and the heat to melt it. */
import type { Alloy } from '../alloys/index.js';
import { checkRange } from '../input.js';
import type { ChargePlan } from '../plans.js';

export interface ChargeInput {
  readonly alloy: Alloy;
  /** Metal in the moulds, castings with gating, g, ≥ 0. */
  readonly inMoulds: number;
  /** Metal temperature at the pour, °C, at least the liquidus. */
  readonly pourTemperature: number;
  /** Fraction of `inMoulds` to have over and pig, 0 to 1. Default 0.1. */
  readonly reserveFraction?: number;
  /** Fraction of the charge lost to oxide and dross, 0 to 0.5. Default: the alloy's usual. */
  readonly meltLoss?: number;
  /** °C of the cold metal, default 20. */
  readonly startTemperature?: number;
}

/** Pigged reserve of 5 to 10 % is customary; the safe end, for a crucible that runs short spoils the mould. */
export const defaultReserve = 0.1;

/**
 * charge = (in moulds + reserve) / (1 − loss), so that what melts away is taken from the reserve too.
 * In the plan, `reserve` is in g and `meltLoss` a fraction.
 * @throws FoundryInputError when an input is out of range.
 */
export function planCharge(input: ChargeInput): ChargePlan {
  const { alloy, reserveFraction = defaultReserve, meltLoss = alloy.meltLoss.usual } = input;
  checkRange('inMoulds', input.inMoulds, 0, Number.POSITIVE_INFINITY, 'g');
  checkRange('reserve', reserveFraction, 0, 1);
  checkRange('meltLoss', meltLoss, 0, 0.5);
  const reserve = input.inMoulds * reserveFraction;
  const charge = (input.inMoulds + reserve) / (1 - meltLoss);
  return {
    alloy: alloy.name,
    title: alloy.title,
    inMoulds: input.inMoulds,
    meltLoss,
    reserve,
    charge,
    energy: charge * heatToMelt(alloy, input.pourTemperature, input.startTemperature),
    bases: {
      charge: { rule: '(in moulds + reserve) / (1 − melt loss)', source: 'Mass balance' },
      meltLoss: {
        rule: `${Math.round(meltLoss * 1000) / 10} % of the charge`,
        source: input.meltLoss === undefined ? alloy.sources.meltLoss : 'set in the job',
      },
      reserve: {
        rule: `${Math.round(reserveFraction * 1000) / 10} % of the metal in the moulds, to be pigged`,
        source: input.reserveFraction === undefined ? 'from memory: 5 to 10 %' : 'set in the job',
      },
      energy: {
        rule: 'c_s (liquidus − start) + L + c_l (pour − liquidus); furnace losses apart',
        source: `${alloy.sources.specificHeat}; ${alloy.sources.latentHeat}`,
      },
    },
  };
}

/**
 * Heat to bring a gram of solid metal to the pour, J/g: sensible heat of the solid, counted to the liquidus, latent
 * heat, and superheat of the liquid.
 * @param to °C, at least the liquidus
 * @param from °C, at most the solidus
 */
export function heatToMelt(alloy: Alloy, to: number, from = 20): number {
  checkRange('pourTemperature', to, alloy.liquidus, 2000, '°C');
  checkRange('startTemperature', from, -50, alloy.solidus, '°C');
  const { specificHeat: c, latentHeat, liquidus } = alloy;
  return c.solid * (liquidus - from) + latentHeat + c.liquid * (to - liquidus);
}
