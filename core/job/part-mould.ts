/** The mould of one part: a flask with its slurry, or a shell. */
import { type Alloy, findAlloy } from '../foundry/alloys/index.js';
import { type FlaskInput, planFlask } from '../foundry/flask.js';
import { findInvestment, type Investment } from '../foundry/investment.js';
import { findPlastic, type Plastic } from '../foundry/material.js';
import type { FlaskPlan } from '../foundry/plans.js';
import { flasksOf } from './flasks-of.js';
import type { Job } from './job.js';
import type { PartRecord } from './make-part.js';
import { present } from './present.js';
import { shellFor } from './shell-job.js';
import type { PartMould } from './summary.js';

/** How the job's slurry is mixed, as the planners take it. */
export const mixOf = (job: Job) => {
  const { waterRatio, waste } = job.shop.mixing;
  return { ...present({ waterRatio, wasteFraction: waste }), scaleStep: job.shop.scale };
};

/** What a part's gated pattern is invested in. */
export function mouldFor(made: PartRecord, job: Job): PartMould {
  const investment = findInvestment(job.investment) as Investment;
  const plastic = findPlastic(job.shop.plastic) as Plastic;
  return investment.coats
    ? { shell: shellFor(made, job, investment, plastic) }
    : { flask: flaskFor(made, job, { ...mixOf(job), investment, plasticDensity: plastic.density }) };
}

function flaskFor(
  made: PartRecord,
  job: Job,
  slurry: Pick<FlaskInput, 'investment' | 'waterRatio' | 'wasteFraction' | 'scaleStep' | 'plasticDensity'>,
): FlaskPlan {
  return planFlask({
    gatedSize: made.facts.gated.size,
    gatedVolume: made.facts.gated.volume,
    patterns: made.request.patternsPerTree ?? 1,
    patternHeight: made.patternBox.max[2] - made.gatedBox.min[2],
    gatedRadius: made.gatedRadius,
    alloy: findAlloy(made.request.alloy, job.shop.alloys) as Alloy,
    ...slurry,
    flasks: flasksOf(job.flasks),
  });
}
