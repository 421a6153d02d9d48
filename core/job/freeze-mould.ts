/** How one mould fills and freezes, in words, numbers and pictures. */
import { writeVtk } from '../files/vtk.js';
import type { PourPlan } from '../foundry/plans.js';
import type { Crew } from '../freeze/kernel/crew.js';
import type { FreezePlan } from '../freeze/plans.js';
import { hasStop } from '../part/finding.js';
import { type FieldVolume, fieldVolume } from '../report/freeze/field-volume.js';
import { formatSection } from '../report/freeze/section-picture.js';
import { formatSurface } from '../report/freeze/surface-picture.js';
import { type FrozenPart, freezePart, type PartInMould, type PourState } from './freeze-part.js';
import { improvePart } from './improve-part.js';
import type { Job, JobPart } from './job.js';
import type { MadePart, PartOutcome } from './make-part.js';
import { present } from './present.js';
import type { PartMould, PartSummary, Summary } from './summary.js';

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
export interface FrozenMould {
  readonly paper: FrozenPaper;
  readonly regated?: MadePart;
}

/** What a part is poured into, and how. */
export interface MouldAtPour {
  readonly mould: PartMould;
  readonly pour: PourState;
}

export const mouldAtPour = (
  { flask, shell, alloy }: PartSummary,
  pour: Pick<Summary, 'pour'>['pour'],
): MouldAtPour => ({
  mould: flask ? { flask } : { shell },
  pour: stateOf(pour.find((p) => p.alloy === alloy) as PourPlan),
});

/** Without what else is poured of the alloy, which changes nothing here. */
const stateOf = ({ metalTemperature, flaskTemperature, carry }: PourPlan): PourState => ({
  metalTemperature,
  flaskTemperature,
  ...present({ carry }),
});

export interface FreezeContext {
  readonly job: Job;
  /** Makes a part again, gated otherwise. */
  readonly remake: (request: JobPart) => PartOutcome;
  readonly crew?: Crew | undefined;
  /** Whether the papers hold what colours a casting in space. */
  readonly volumes?: boolean | undefined;
  /** The share of the freezing that is worked out. */
  readonly onShare?: ((share: number) => void) | undefined;
}

/** Fills and freezes a mould; of its fields only pictures are kept, unless more is wanted. */
export function freezeMould(
  given: PartInMould,
  { mould, pour }: MouldAtPour,
  { job, remake, crew, volumes, onShare }: FreezeContext,
): FrozenMould | undefined {
  const freeze = (made: PartInMould, its: PartMould): FrozenPart | undefined =>
    hasStop(made.gating.findings)
      ? undefined
      : freezePart(made, its, pour, job, present({ crew, onProgress: onShare }));
  const first = freeze(given, mould);
  if (!first) return undefined;
  const best = job.improve ? improvePart({ made: given, frozen: first, job, remake, freeze }) : undefined;
  const { regated, frozen } = best ?? { regated: undefined, frozen: first };
  const findings = [...frozen.plan.findings, ...(best ? [best.finding] : [])];
  const told = { ...frozen, plan: { ...frozen.plan, findings } };
  return { paper: paperOf(regated ?? given, told, job, volumes === true), ...present({ regated }) };
}

function paperOf(made: PartInMould, { plan, fields }: FrozenPart, job: Job, volumes: boolean): FrozenPaper {
  const [x, y] = made.gating.sprue.at;
  const subject = {
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
