/** The fire of a job's flasks together. */
import { planBurnout } from '../foundry/burnout.js';
import type { BlockInvestment } from '../foundry/investment.js';
import type { Plastic } from '../foundry/material.js';
import type { FlaskBurnout, FlaskPlan, PourPlan } from '../foundry/plans.js';
import type { Job } from './job.js';
import { present } from './present.js';
import type { PartSummary } from './summary.js';

/** All in one programme, which the largest sets and the hottest ends. */
export function fireFlasks(
  parts: readonly (Pick<PartSummary, 'name' | 'alloy' | 'moulds'> & { readonly flask: FlaskPlan })[],
  pour: readonly PourPlan[],
  investment: BlockInvestment,
  plastic: Plastic,
  job: Job,
): FlaskBurnout {
  const { waterRatio } = job.shop.mixing;
  const hottest = Math.max(...pour.map((p) => p.flaskTemperature));
  const largest = Math.max(...parts.map((p) => p.flask.insideDiameter));
  return planBurnout({
    largestFlaskDiameter: largest,
    largestFlaskHeight: Math.max(
      ...parts.flatMap(({ flask: k }) => (k.insideDiameter === largest ? [k.insideHeight] : [])),
    ),
    plastic,
    castingTemperature: hottest,
    investment,
    ...present({ waterRatio, time: job.burnoutTime }),
    kiln: job.shop.kiln,
    degrees: job.degrees,
    flasks: parts.map((p) => ({
      name: p.name,
      diameter: p.flask.insideDiameter,
      height: p.flask.insideHeight,
      quantity: p.moulds,
      castingTemperature: pour.find((x) => x.alloy === p.alloy)?.flaskTemperature ?? hottest,
    })),
  });
}
