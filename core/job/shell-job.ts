/** The shells of a job: their coats, their fire, and their way to the metal. */

import { findAlloy } from '../foundry/alloys/index.js';
import type { ShellInvestment } from '../foundry/investment.js';
import type { Plastic } from '../foundry/material.js';
import type { PourPlan, ShellBurnout } from '../foundry/plans.js';
import { carryShell, planShell, planShellBurnout, type ShellPlan } from '../foundry/shell/index.js';
import type { Job } from './job.js';
import type { PartRecord } from './make-part.js';
import { present } from './present.js';
import type { PartSummary } from './summary.js';

/** The shell round one pattern of a part. */
export function shellFor(
  made: PartRecord,
  job: Job,
  investment: ShellInvestment,
  plastic: Plastic,
): ShellPlan {
  const { shellBase } = made;
  if (!shellBase) throw new Error(`${made.request.name} was made for another kind of mould`);
  const alloy = findAlloy(made.request.alloy, job.shop.alloys);
  if (!alloy) throw new Error(`${made.request.name} was made of an unknown alloy`);
  return planShell({
    investment,
    alloy,
    gatedSize: made.facts.gated.size,
    gatedVolume: made.facts.gated.volume,
    gatedRadius: made.gatedRadius,
    surface: shellBase.surface,
    vents: made.gating.vents.length,
    plasticDensity: plastic.density,
    ...present({ narrowestGap: shellBase.narrowestGap, wasteFraction: job.shop.mixing.waste }),
  });
}

/** One alloy's pour into shells; its thinnest shell cools the fastest. */
export function pourIntoShells(
  plan: PourPlan,
  shells: readonly ShellPlan[],
  investment: ShellInvestment,
  job: Job,
): PourPlan {
  const thinnest = Math.min(...shells.map((s) => s.thickness));
  return carryShell(plan, investment, thinnest, job.shop.kiln.topTemperature ?? undefined);
}

/** The fire of all the job's shells together. */
export function fireShells(
  parts: readonly (PartSummary & { readonly shell: ShellPlan })[],
  pour: readonly PourPlan[],
  investment: ShellInvestment,
  plastic: Plastic,
  job: Job,
): ShellBurnout {
  const leaves = (plan: PourPlan | undefined): number =>
    plan?.carry?.leaves ?? plan?.flaskTemperature ?? Number.NaN;
  const hottest = Math.max(...pour.map(leaves));
  return planShellBurnout({
    investment,
    plastic,
    thickness: Math.max(...parts.map((p) => p.shell.thickness)),
    castingTemperature: hottest,
    kiln: job.shop.kiln,
    degrees: job.degrees,
    ...present({ firing: job.shellFiring, time: job.burnoutTime }),
    shells: parts.map((p) => ({
      name: p.name,
      diameter: p.shell.diameter,
      height: p.shell.size[2],
      mouldVolume: p.shell.volume,
      quantity: p.moulds,
      castingTemperature: leaves(pour.find((x) => x.alloy === p.alloy)),
    })),
  });
}
