/** How each mould of a job fills and freezes, in words, numbers and pictures. */
import { writeVtk } from '../files/vtk.js';
import type { PourPlan } from '../foundry/plans.js';
import type { Crew } from '../freeze/kernel/crew.js';
import type { FreezePlan } from '../freeze/plans.js';
import { hasStop } from '../part/finding.js';
import { type FieldVolume, fieldVolume } from '../report/freeze/field-volume.js';
import { formatSection } from '../report/freeze/section-picture.js';
import { formatSurface } from '../report/freeze/surface-picture.js';
import { type FrozenPart, freezePart } from './freeze-part.js';
import { improvePart } from './improve-part.js';
import type { Job, JobPart } from './job.js';
import { present } from './job-reader.js';
import type { MadePart, PartOutcome } from './make-part.js';
import { meshKeyOf } from './mesh-files-of.js';
import type { Remember } from './remember.js';
import type { PartMould, PartSummary } from './summary.js';

/** What the papers and files show of a part's filling and freezing. */
export interface FrozenPaper {
  readonly plan: FreezePlan;
  /** SVG documents. */
  readonly section: string;
  readonly surface: string;
  /** The fields as a VTK file, where the job wants them. */
  readonly fields?: Uint8Array;
  /** When it is solid and how nearly frozen the first metal came, in space, where they were asked for. */
  readonly volumes?: { readonly solid: FieldVolume; readonly spent: FieldVolume };
}

/** One mould done: its paper, and the part where it was gated otherwise. */
interface FrozenMould {
  readonly made: MadePart;
  readonly paper: FrozenPaper;
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
  /** Whether the papers hold what colours a casting in space. */
  readonly volumes?: boolean | undefined;
  readonly remember: Remember;
  /** Name of the part, how many are done, and the share of its freezing that is worked out. */
  readonly onProgress?: (name: string, done: number, share: number) => void;
}

export interface FrozenJob {
  readonly papers: ReadonlyMap<string, FrozenPaper>;
  /** Parts gated otherwise than before, where the job asks to improve them. */
  readonly improved: ReadonlyMap<string, MadePart>;
}

/**
 * Fills and freezes every mould; of its fields only pictures are kept, unless more is wanted. Stops before each mould,
 * with its name and how many are done.
 */
export function* freezeJob(
  input: FreezeJobInput,
): Generator<{ readonly name: string; readonly done: number }, FrozenJob> {
  const { job, parts, told, remember } = input;
  const papers = new Map<string, FrozenPaper>();
  const improved = new Map<string, MadePart>();
  if (job.freeze === 'off') return { papers, improved };
  const { parts: _others, name: _name, title, notes, prices, meshFiles: _meshes, ...common } = job;
  const meshes = meshKeyOf(job);
  for (const [done, summary] of told.entries()) {
    const { name, alloy, growth, flask, shell } = summary;
    yield { name, done };
    const given = parts.get(name) as MadePart;
    const pour = input.pour.find((p) => p.alloy === alloy) as PourPlan;
    const mould: PartMould = flask ? { flask } : { shell };
    const from = ['freeze', given.request, growth, mould, pour, common, meshes, input.volumes === true];
    const frozen = remember(from, () => freezeMould(given, mould, pour, input, done));
    if (!frozen) continue;
    if (frozen.made !== given) improved.set(name, frozen.made);
    papers.set(name, frozen.paper);
  }
  return { papers, improved };
}

function freezeMould(
  given: MadePart,
  mould: PartMould,
  pour: PourPlan,
  { job, remake, crew, volumes, onProgress }: FreezeJobInput,
  done: number,
): FrozenMould | undefined {
  const freeze = (made: MadePart, its: PartMould): FrozenPart | undefined =>
    hasStop(made.gating.findings)
      ? undefined
      : freezePart(made, its, pour, job, {
          ...present({ crew }),
          onProgress: (share) => onProgress?.(given.request.name, done, share),
        });
  const first = freeze(given, mould);
  if (!first) return undefined;
  const best = job.improve ? improvePart({ made: given, frozen: first, job, remake, freeze }) : undefined;
  const { made, frozen } = best ?? { made: given, frozen: first };
  const findings = [...frozen.plan.findings, ...(best ? [best.finding] : [])];
  const paper = paperOf(made, { ...frozen, plan: { ...frozen.plan, findings } }, job, volumes === true);
  return { made, paper };
}

function paperOf(made: MadePart, { plan, fields }: FrozenPart, job: Job, volumes: boolean): FrozenPaper {
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
    ...(volumes
      ? { volumes: { solid: fieldVolume(subject, 'solidAt'), spent: fieldVolume(subject, 'spent') } }
      : {}),
  };
}
