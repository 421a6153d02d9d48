import { planCost } from '../foundry/cost.js';
import { massOf, type Plastic } from '../foundry/material.js';
import type { Job } from './job.js';
import { present } from './present.js';
import type { PartSummary, PlateSummary, Summary } from './summary.js';

export interface CostedJob {
  readonly plates: readonly PlateSummary[];
  readonly parts: readonly PartSummary[];
  /** g in all: powder as weighed out, or slurry and stucco. */
  readonly mould: { readonly powder: number } | { readonly slurry: number; readonly stucco: number };
  readonly charge: Summary['charge'];
  readonly plastic: Plastic;
  /** J, where the kiln's power is known. */
  readonly kilnEnergy?: number;
}

/** The job's cost at its own or its shop's prices; null where there are none. */
export function costOf(job: Job, made: CostedJob): Summary['cost'] {
  if (!job.prices) return null;
  const { currency, metalPerKg, investmentPerKg, plasticPerKg, energyPerKwh, consumablesPerMould } =
    job.prices;
  const { slurryPerKg, stuccoPerKg } = job.prices;
  return planCost({
    prices: {
      currency,
      alloys: metalPerKg,
      ...present({
        investment: investmentPerKg,
        slurry: slurryPerKg,
        stucco: stuccoPerKg,
        plastic: plasticPerKg,
        energy: energyPerKwh,
        consumables: consumablesPerMould,
      }),
    },
    plastic: made.plates.reduce((sum, p) => sum + p.plastic, 0),
    ...made.mould,
    charges: made.charge.map((c) => ({
      ...c,
      ...(c.melt ? { drawn: c.melt.heats.reduce((sum, h) => sum + h.drawn, 0) } : {}),
      ...(c.melt?.mix?.ok ? { metals: c.melt.mix.metals } : {}),
    })),
    furnaceEfficiency: job.shop.furnace.efficiency,
    ...present({ kilnEnergy: made.kilnEnergy }),
    parts: made.parts.map((p) => ({
      name: p.name,
      quantity: p.moulds * p.patternsPerTree,
      mouldShare: 1 / p.patternsPerTree,
      alloy: p.alloy,
      plastic: massOf(p.volume.gated, made.plastic) / p.patternsPerTree,
      ...(p.flask
        ? { powder: p.flask.weigh.powder / p.patternsPerTree }
        : {
            slurry: p.shell.slurry / p.patternsPerTree,
            stucco: p.shell.stucco / p.patternsPerTree,
          }),
      metal: p.mass.charge / p.patternsPerTree,
    })),
  });
}
