/** The melts of a job: charge, crucible and heats of each alloy, and its pour as these leave it. */
import type { Alloy } from '../foundry/alloys/index.js';
import type { StockMetal } from '../foundry/charge/alloying-programme.js';
import { benchCheck } from '../foundry/charge/bench-check.js';
import { defaultReserve, planCharge } from '../foundry/charge/charge.js';
import type { Crucible } from '../foundry/charge/crucibles.js';
import { planMelt } from '../foundry/charge/melt.js';
import { planMetalMix, shelfAfter } from '../foundry/charge/metal-mix.js';
import type { Plastic } from '../foundry/material.js';
import type { ChargePlan, PourPlan } from '../foundry/plans.js';
import type { Shop } from './shop.js';
import type { PartSummary } from './summary.js';

export interface JobMelt {
  readonly charge: ChargePlan;
  /** Started hotter where the last mould needs it, with the melt's findings beside its own. */
  readonly pour: PourPlan;
}

/**
 * The melts of a job's alloys in their order, each from what those before it leave on the shelf.
 * @param melt one alloy's, of the metals it is given
 */
export function meltAll(
  alloys: readonly Alloy[],
  metals: readonly StockMetal[],
  melt: (alloy: Alloy, metals: readonly StockMetal[]) => JobMelt,
): readonly JobMelt[] {
  let shelf = metals;
  return alloys.map((alloy) => {
    const made = melt(alloy, shelf);
    shelf = shelfAfter(shelf, made.charge.melt?.mix);
    return made;
  });
}

/**
 * One alloy's melt.
 * @param modulus V/A of the thinnest wall of a part by name, mm
 */
export function meltJob(
  alloy: Alloy,
  pour: PourPlan,
  parts: readonly PartSummary[],
  modulus: (part: string) => number,
  shop: {
    readonly furnace: Shop['furnace'];
    readonly plastic: Plastic;
    readonly crucibles?: readonly Crucible[] | undefined;
    readonly scaleStep?: number | undefined;
    readonly metals?: readonly StockMetal[] | undefined;
  },
): JobMelt {
  const own = parts.filter((p) => p.alloy === alloy.name);
  const inMoulds = own.reduce((sum, p) => sum + p.mass.charge * p.moulds, 0);
  const heated = planMelt(
    {
      alloy,
      castings: own.map((p) => ({
        name: p.name,
        quantity: p.moulds,
        metal: p.mass.charge,
        thinnestModulus: modulus(p.name),
        pourTime: p.gating.fill.pourTime,
        patterns: p.patternsPerTree,
      })),
      metalTemperature: pour.metalTemperature,
      metalRange: pour.metalRange,
      meltLoss: alloy.meltLoss.usual,
      reserveFraction: defaultReserve,
      furnace: shop.furnace,
      ...(shop.crucibles === undefined ? {} : { crucibles: shop.crucibles }),
      ...(shop.scaleStep === undefined ? {} : { scaleStep: shop.scaleStep }),
    },
    own.map((p) => benchCheck(p.name, p.volume.gated, p.mass.charge, shop.plastic)),
  );
  const mix = shop.metals?.length
    ? planMetalMix({
        alloy,
        metals: shop.metals,
        heats: heated.heats.map((h) => h.charge),
        scaleStep: heated.scaleStep,
      })
    : undefined;
  const melt = mix === undefined ? heated : { ...heated, mix };
  const raised = melt.metalTemperature !== pour.metalTemperature;
  const planned = planCharge({ alloy, inMoulds, pourTemperature: melt.metalTemperature });
  // What is told to be weighed out is what the heats are, each rounded up to the scale's step.
  const weighed = melt.heats.reduce((sum, h) => sum + h.charge, 0);
  return {
    charge: { ...planned, charge: weighed, energy: (planned.energy * weighed) / planned.charge, melt },
    pour: {
      ...pour,
      metalTemperature: melt.metalTemperature,
      findings: [...pour.findings, ...melt.findings, ...(mix?.findings ?? [])],
      bases: raised
        ? {
            ...pour.bases,
            metalTemperature: {
              rule: `raised from ${Math.round(pour.metalTemperature)} °C, so that the last mould of a heat still gets metal hot enough for its thinnest section`,
              source: pour.bases.metalTemperature?.source ?? '',
            },
          }
        : pour.bases,
    },
  };
}
