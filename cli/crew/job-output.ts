/** The files of a job made by hands, one at a time; what lies on the shelf is copied from there. */
import type { OutputFile } from '../../core/files/folder.js';
import type { PaperUnits } from '../../core/job/job-files.js';
import { type MeshState, memberStates } from '../../core/job/make-part.js';
import {
  freezeFieldFile,
  freezeFiles,
  partFiles,
  plateFiles,
  summaryFile,
  travellerFile,
} from '../../core/job/output-names.js';
import type { PartSummary, PlateSummary } from '../../core/job/summary.js';
import { summaryChunks } from '../../core/job/summary-text.js';
import { type TravellerPictures, travellerChunks } from '../../core/report/traveller.js';
import type { Bench } from './bench.js';
import type { CrewJob, CrewPaper } from './crew-job.js';
import {
  drawnOf,
  drawPlan,
  figureOf,
  type PapersAnswer,
  type PlanSheet,
  type PlateAnswer,
} from './files-task.js';
import { type CrewPart, fetchPaper, fetchPart } from './freeze-task.js';
import type { Hands } from './hands.js';
import { again } from './make-task.js';
import { memberFile, wholeFiles } from './part-entry.js';
import { isLarge } from './relief.js';
import { inOrder } from './together.js';

export interface OutputOptions {
  readonly hands: Hands;
  readonly bench: Bench;
  readonly units: PaperUnits;
  /** Told how many of the parts and plates have their files. */
  readonly onDone: (name: string) => void;
}

/** `summary.json` comes last: a folder that has it is whole. */
export async function* outputOf(job: CrewJob, options: OutputOptions): AsyncGenerator<OutputFile> {
  const { hands, units, onDone, bench } = options;
  const { summary, parts } = job;
  // Bytes of files are held by those that are made ahead.
  const ahead = hands.count === 1 ? 1 : hands.count + 1;
  const partOf = (name: string): CrewPart => parts.get(name) as CrewPart;
  const papers = inOrder(summary.parts, ahead, async (told) => ({
    told,
    answer: await hands.do({ kind: 'papers', part: partOf(told.name).source, told, units }),
  }));
  for await (const { told, answer } of papers) {
    yield* partFilesOf(told, answer, job, bench);
    onDone(told.name);
  }
  if (isLarge(summary.parts.length)) await hands.rest();
  const plates = inOrder(summary.plates, ahead, async (plate) => {
    const answer = await hands.do({ kind: 'plate', ...sheetOf(plate, job, units) });
    return { plate, answer };
  });
  for await (const { plate, answer } of plates) {
    yield* plateFilesOf(plate, answer);
    onDone(plate.name);
  }
  // What is left is written by this thread.
  await hands.rest();
  yield { path: travellerFile, chunks: travellerChunks(summary, picturesOf(job, options), units) };
  yield { path: summaryFile, chunks: summaryChunks(summary) };
}

function* partFilesOf(
  told: PartSummary,
  { gated3mf, drawings }: PapersAnswer,
  { parts, frozen }: CrewJob,
  bench: Bench,
): Generator<OutputFile> {
  const paths = partFiles(told.name);
  const { source } = parts.get(told.name) as CrewPart;
  const copy = (path: string, name: string): OutputFile => ({
    path,
    copyFrom: (dest) =>
      again(
        () => fetchPart(source, bench),
        (part) => part.copyTo(name, dest),
      ),
  });
  for (const [kind, name] of Object.entries(wholeFiles)) yield copy(paths[kind as MeshState], name);
  yield { path: paths.gated3mf, bytes: gated3mf };
  for (const [i, { name }] of drawnOf(told).entries()) {
    yield { path: partFiles(name).drawing, bytes: drawings[i] ?? '' };
    if (i > 0) for (const state of memberStates) yield copy(partFiles(name)[state], memberFile(i - 1, state));
  }
  const paper = frozen.get(told.name);
  if (!paper) return;
  const picture = (path: string, name: string): OutputFile => ({
    path,
    copyFrom: (dest) =>
      again(
        () => fetchPaper(paper.source, bench),
        (stored) => stored.copyTo(name, dest),
      ),
  });
  const { freezeSection, freezeSurface } = freezeFiles(told.name);
  yield picture(freezeSection, 'section');
  yield picture(freezeSurface, 'surface');
  if (paper.fields) yield picture(freezeFieldFile(told.name), 'fields');
}

function* plateFilesOf(plate: PlateSummary, { stl, threeMf, plan }: PlateAnswer): Generator<OutputFile> {
  const paths = plateFiles(plate.name);
  yield { path: paths.stl, bytes: stl };
  yield { path: paths.threeMf, bytes: threeMf };
  yield { path: paths.plan, bytes: plan };
}

const sheetOf = (plate: PlateSummary, { summary, parts }: CrewJob, units: PaperUnits): PlanSheet => ({
  plate,
  summary: { job: summary.job, bed: summary.bed },
  units,
  parts: new Map(plate.placements.map(({ name }) => [name, parts.get(name) as CrewPart])),
});

/** What the traveller shows, each picture read or drawn when its turn comes. */
function picturesOf(job: CrewJob, { bench, units }: OutputOptions): TravellerPictures {
  const { summary, parts, frozen } = job;
  const partOf = (name: string): CrewPart => parts.get(name) as CrewPart;
  const castings = new Map(
    summary.parts.flatMap((told) => drawnOf(told).map(({ name }, index) => [name, { told, index }] as const)),
  );
  const plates = new Map(summary.plates.map((plate) => [plate.name, plate]));
  const paperText = async (name: string, file: string): Promise<string> => {
    const stored = () => fetchPaper((frozen.get(name) as CrewPaper).source, bench);
    return new TextDecoder().decode(await again(stored, (paper) => paper.read(file)));
  };
  return {
    has: (kind, name) =>
      kind === 'plan'
        ? plates.has(name)
        : kind === 'drawing'
          ? castings.has(name)
          : kind === 'preview'
            ? parts.has(name)
            : frozen.has(name),
    read: (kind, name) => {
      switch (kind) {
        case 'preview':
          return again(
            () => fetchPart(partOf(name).source, bench),
            (part) => part.read(wholeFiles.preview),
          );
        case 'plan':
          return drawPlan(sheetOf(plates.get(name) as PlateSummary, job, units), bench);
        case 'drawing': {
          const { told, index } = castings.get(name) as { told: PartSummary; index: number };
          return again(
            () => fetchPart(partOf(told.name).source, bench),
            (part) => figureOf(part, told, index, units),
          );
        }
        case 'freezeSection':
          return paperText(name, 'section');
        case 'freezeSurface':
          return paperText(name, 'surface');
      }
    },
  };
}
