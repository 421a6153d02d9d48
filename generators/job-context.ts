import { alloyNames } from '../core/foundry/alloys/index.js';
import { investments } from '../core/foundry/investment.js';
import type { JobContext } from '../core/job/job-context.js';
import { findPart, partNames } from './index.js';

/** What jobs may refer to. */
export const jobContext = (fileName: string, shop?: JobContext['shop']): JobContext => ({
  fileName,
  knownParts: findPart,
  partNames,
  knownAlloys: alloyNames,
  knownInvestments: investments.map((i) => i.name),
  ...(shop === undefined ? {} : { shop }),
});
