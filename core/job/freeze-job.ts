/** How each mould of a job fills and freezes, in words, numbers and pictures. */
import { writeVtk } from '../files/vtk.js';
import type { PourPlan } from '../foundry/plans.js';
import type { Crew } from '../freeze/kernel/crew.js';
import type { FreezePlan } from '../freeze/plans.js';
import { hasStop } from '../part/finding.js';
import { formatSection } from '../report/freeze/section-picture.js';
import { formatSurface } from '../report/freeze/surface-picture.js';
import { type FrozenPart, freezePart } from './freeze-part.js';
import { improvePart } from './improve-part.js';
import type { Job, JobPart } from './job.js';
import type { MadePart, PartOutcome } from './make-part.js';
import type { PartMould, PartSummary } from './summary.js';

/** What the papers and files show of a part's filling and freezing. */
export interface FrozenPaper {
  readonly plan: FreezePlan;
  /** SVG documents. */
  readonly section: string;
  readonly surface: string;
  /** The fields as a VTK file, where the job wants them. */
  readonly fields?: Uint8Array;
}

export interface FreezeJobInput {
  readonly job: Job;
  readonly parts: ReadonlyMap<string, MadePart>;
  /** Their moulds, in the order of the parts. */
  readonly told: readonly PartSummary[];
  readonly pour: readonly PourPlan[];
  /** Makes a part again, gated otherwise. */
  readonly remake: (request: JobPart) => PartOutcome;
  readonly crew?: Crew;
  /** Name of the part, how many are done, and the share of its freezing that is worked out. */
  readonly onProgress?: (name: string, done: number, share: number) => void;
}

export interface FrozenJob {
  readonly papers: ReadonlyMap<string, FrozenPaper>;
  /** Parts gated otherwise than before, where the job asks to improve them. */
  readonly improved: ReadonlyMap<string, MadePart>;
}

/** Fills and freezes every mould; of its fields only pictures are kept, unless the job wants them. */
export function freezeJob(input: FreezeJobInput): FrozenJob {
  const { job, parts, told, pour, remake, crew, onProgress } = input;
  const papers = new Map<string, FrozenPaper>();
  const improved = new Map<string, MadePart>();
  told.forEach((summary, i) => {
    const { name } = summary;
    const given = parts.get(name) as MadePart;
    const plan = pour.find((p) => p.alloy === summary.alloy) as PourPlan;
    const freeze = (made: MadePart, mould: PartMould): FrozenPart | undefined =>
      hasStop(made.gating.findings)
        ? undefined
        : freezePart(made, mould, plan, job, {
            ...(crew === undefined ? {} : { crew }),
            onProgress: (share) => onProgress?.(name, i, share),
          });
    const mould: PartMould = summary.flask ? { flask: summary.flask } : { shell: summary.shell };
    const first = freeze(given, mould);
    if (!first) return;
    const best = job.improve ? improvePart({ made: given, frozen: first, job, remake, freeze }) : undefined;
    const { made, frozen } = best ?? { made: given, frozen: first };
    if (made !== given) improved.set(name, made);
    const findings = [...frozen.plan.findings, ...(best ? [best.finding] : [])];
    papers.set(name, paperOf(made, { ...frozen, plan: { ...frozen.plan, findings } }, job));
  });
  return { papers, improved };
}

function paperOf(made: MadePart, { plan, fields }: FrozenPart, job: Job): FrozenPaper {
  const { name } = made.request;
  const [x, y] = made.gating.sprue.at;
  const subject = {
    name,
    gated: made.meshes.gated,
    standing: made.standing,
    fields,
    plan,
    axis: [x, y] as const,
  };
  const view = { lengthUnit: job.units, degrees: job.degrees };
  return {
    plan,
    section: formatSection(subject, view),
    surface: formatSurface(subject),
    ...(job.freezeFields ? { fields: writeVtk(fields) } : {}),
  };
}
