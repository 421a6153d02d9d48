import { castingTolerancePlan } from '../foundry/casting-tolerance.js';
import type { Job } from './job.js';
import type { MemberRecord, PartRecord } from './make-part.js';
import { memberFiles, partFiles } from './output-names.js';
import { present } from './present.js';
import { type MemberSummary, mouldFindings, type PartMould, type PartSummary } from './summary.js';
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
  ...(mould.flask ? present({ flaskAxis: made.flaskAxis }) : {}),
  ...(made.members ? { members: made.members.map((member) => summariseMember(member, made)) } : {}),
  air: made.air,
  ...mould,
  findings: [...made.findings, ...mouldFindings(mould)],
  files: partFiles(made.request.name),
});

const summariseMember = (member: MemberRecord, { request: tree }: PartRecord): MemberSummary => {
  const { request, facts } = member;
  return {
    name: request.name,
    part: member.part,
    ...(request.part === member.part ? {} : { partFile: request.part }),
    ...(request.piece === undefined ? {} : { piece: request.piece }),
    title: member.title,
    count: request.count,
    quantity: request.count * mouldsFor(tree),
    parameters: request.parameters,
    growth: member.growth,
    stock: member.stock,
    surfaces: member.surfaces,
    fittings: member.fittings,
    mass: member.mass,
    volume: { part: facts.part.volume, casting: facts.casting.volume, pattern: facts.pattern.volume },
    meshes: facts,
    dimensions: member.dimensions,
    castingTolerance: castingTolerancePlan,
    files: memberFiles(tree.name, request.name),
  };
};
