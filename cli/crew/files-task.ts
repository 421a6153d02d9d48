/** Files and pictures of parts and plates that are written from what lies on the shelf. */
import { castingsOf } from '../../core/job/castings-of.js';
import { gated3mfOf, planOf, plateMeshFiles } from '../../core/job/file-bytes.js';
import type { PaperUnits } from '../../core/job/job-files.js';
import type { PartRecord } from '../../core/job/make-part.js';
import type { PartSummary, PlateSummary, Summary } from '../../core/job/summary.js';
import { type DrawnPart, formatFigure, formatSheet } from '../../core/report/drawing/index.js';
import type { Mesh } from '../../core/solid/types.js';
import type { StoredPart } from '../store/store.js';
import type { Bench } from './bench.js';
import { type CrewPart, fetchPart, type PartSource } from './freeze-task.js';
import { again } from './make-task.js';
import { readDrawings, readGated } from './part-entry.js';
import { recordsOf } from './plan-task.js';

/** Writes a part's files that bear its name or its numbers. */
export interface PapersTask {
  readonly kind: 'papers';
  readonly part: PartSource;
  readonly told: PartSummary;
  readonly units: PaperUnits;
}
export interface PapersAnswer {
  readonly gated3mf: Uint8Array;
  /** Of the part, and of each kind on a tree of several. */
  readonly drawings: readonly string[];
}

/** A plate and what its plan is drawn from. */
export interface PlanSheet {
  readonly plate: PlateSummary;
  readonly summary: Pick<Summary, 'job' | 'bed'>;
  readonly units: PaperUnits;
  /** Those on the plate, by name. */
  readonly parts: ReadonlyMap<string, CrewPart>;
}

/** Writes the files of a plate. */
export interface PlateTask extends PlanSheet {
  readonly kind: 'plate';
}
export interface PlateAnswer {
  readonly stl: Uint8Array;
  readonly threeMf: Uint8Array;
  readonly plan: string;
}

export async function papers({ part, told, units }: PapersTask, bench: Bench): Promise<PapersAnswer> {
  const { drawings, gated } = await again(
    () => fetchPart(part, bench),
    async (stored) => ({ drawings: await readDrawings(stored), gated: await readGated(stored) }),
  );
  return {
    gated3mf: gated3mfOf(told.name, gated),
    drawings: drawnOf(told).map((one, i) => formatSheet(one, drawings[i] as DrawnPart, units)),
  };
}

/** What has a drawing: the part, and each kind on a tree of several. */
export const drawnOf = (told: PartSummary): readonly PartSummary[] =>
  told.members === undefined ? [told] : [told, ...castingsOf([told])];

export async function plate(task: PlateTask, bench: Bench): Promise<PlateAnswer> {
  const { plate: told, summary, parts } = task;
  const gated = new Map<string, Mesh>();
  for (const [name, { source }] of parts)
    gated.set(name, await again(() => fetchPart(source, bench), readGated));
  const files = plateMeshFiles(told, summary.job.title, (name) => gated.get(name) as Mesh);
  return { stl: files.stl(), threeMf: files.threeMf(), plan: await drawPlan(task, bench) };
}

export async function drawPlan({ plate, summary, units, parts }: PlanSheet, bench: Bench): Promise<string> {
  const records = await recordsOf(parts, bench);
  return planOf(plate, summary, (name) => records.get(name) as PartRecord, units.lengthUnit);
}

/** One of a part's drawings, in the order of `drawnOf`, as it stands over its inspection sheet. */
export async function figureOf(
  part: StoredPart,
  told: PartSummary,
  index: number,
  units: PaperUnits,
): Promise<string> {
  const drawings = await readDrawings(part);
  return formatFigure(drawnOf(told)[index] as PartSummary, drawings[index] as DrawnPart, units);
}
