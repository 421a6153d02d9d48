import { castingTolerancePlan } from '../foundry/casting-tolerance.js';
import type { Job } from './job.js';
import type { PartRecord } from './make-part.js';
import { partFiles } from './output-names.js';
import { mouldFindings, type PartMould, type PartSummary } from './summary.js';
import { mouldsFor } from './tree.js';

/** All that the papers tell of a made part in its mould. */
export const summarisePart = (made: PartRecord, mould: PartMould, job: Job): PartSummary => ({
  name: made.request.name,
  part: made.part,
  ...(made.request.part === made.part ? {} : { partFile: made.request.part }),
  ...(made.request.piece === undefined ? {} : { piece: made.request.piece }),
  title: made.title,
  quantity: made.request.quantity,
  patternsPerTree: made.request.patternsPerTree ?? 1,
  moulds: mouldsFor(made.request),
  parameters: made.request.parameters,
  alloy: made.request.alloy,
  growth: made.growth,
  printerCorrection: job.printerCorrection,
  stock: made.stock,
  surfaces: made.surfaces,
  fittings: made.fittings,
  mass: made.mass,
  volume: {
    part: made.facts.part.volume,
    casting: made.facts.casting.volume,
    pattern: made.facts.pattern.volume,
    gated: made.facts.gated.volume,
  },
  meshes: made.facts,
  tolerance: made.tolerance,
  dimensions: made.dimensions,
  castingTolerance: castingTolerancePlan,
  gating: made.gating,
  air: made.air,
  ...mould,
  findings: [...made.findings, ...mouldFindings(mould)],
  files: partFiles(made.request.name),
});
