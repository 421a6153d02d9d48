import { formatFigure, formatSheet } from '../report/drawing/index.js';
import { formatTraveller } from '../report/traveller.js';
import type { LengthUnit, TemperatureUnit } from '../units/index.js';
import { gated3mfOf, pictureOf, planOf, plateMeshFiles, stlOf } from './file-bytes.js';
import type { FrozenPaper } from './freeze-mould.js';
import type { JobResult } from './make-job.js';
import { type MadePart, meshStates } from './make-part.js';
import { figuresOfMembers, filesOfMembers } from './member-files.js';
import {
  freezeFieldFile,
  freezeFiles,
  partFiles,
  plateFiles,
  summaryFile,
  travellerFile,
} from './output-names.js';
import type { PlateSummary } from './summary.js';
import { summaryChunks } from './summary-text.js';

export interface JobFile {
  /** Relative to the output folder, with forward slashes. */
  readonly path: string;
  readonly bytes: Uint8Array;
}

export interface PaperUnits {
  readonly lengthUnit: LengthUnit;
  readonly degrees: TemperatureUnit;
}

const text = (value: string): Uint8Array => new TextEncoder().encode(value);

/** A file of a job whose bytes are made when they are asked for. */
export interface PlannedFile {
  readonly path: string;
  /** Meshes are read back from their bytes and inspected; one that is not sound throws. */
  readonly make: () => Uint8Array;
}

/** Every file of a job, made one at a time so that only one is held. `summary.json` comes last: a folder that has it is whole. */
export function* jobFiles(result: JobResult, units: PaperUnits): Generator<JobFile> {
  for (const { path, make } of planFiles(result, units)) yield { path, bytes: make() };
}

/** The files of a job in the order they are written. Pictures and plans that two of them show are made once. */
export function planFiles(result: JobResult, units: PaperUnits): readonly PlannedFile[] {
  const { summary, parts, frozen } = result;
  const pictures = new Map<string, () => Uint8Array>();
  const drawings = new Map<string, () => string>();
  const plans = new Map<string, () => string>();
  const files: PlannedFile[] = [];
  for (const told of summary.parts) {
    const part = parts.get(told.name) as MadePart;
    const picture = once(() => pictureOf(part));
    pictures.set(told.name, picture);
    drawings.set(told.name, () => formatFigure(told, part.drawing, units));
    files.push(
      ...filesOfPart(part, picture),
      {
        path: partFiles(told.name).drawing,
        make: () => text(formatSheet(told, part.drawing, units)),
      },
      ...filesOfMembers(told, part.memberBodies, units),
      ...filesOfFreeze(told.name, frozen.get(told.name)),
    );
    for (const [name, make] of figuresOfMembers(told, part.memberBodies, units)) drawings.set(name, make);
  }
  for (const plate of summary.plates) {
    const plan = once(() => planOf(plate, summary, (name) => parts.get(name) as MadePart, units.lengthUnit));
    plans.set(plate.name, plan);
    files.push(...filesOfPlate(plate, result, plan));
  }
  const all = <T>(made: ReadonlyMap<string, () => T>): Record<string, T> =>
    Object.fromEntries([...made].map(([name, make]) => [name, make()]));
  const traveller = (): string =>
    formatTraveller(summary, all(pictures), all(plans), units, all(drawings), Object.fromEntries(frozen));
  return [
    ...files,
    { path: travellerFile, make: () => text(traveller()) },
    { path: summaryFile, make: () => text([...summaryChunks(summary)].join('')) },
  ];
}

function once<T>(make: () => T): () => T {
  let made: { readonly value: T } | undefined;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
}

function filesOfFreeze(name: string, paper: FrozenPaper | undefined): readonly PlannedFile[] {
  if (!paper) return [];
  const paths = freezeFiles(name);
  const { fields } = paper;
  return [
    { path: paths.freezeSection, make: () => text(paper.section) },
    { path: paths.freezeSurface, make: () => text(paper.surface) },
    ...(fields ? [{ path: freezeFieldFile(name), make: () => fields }] : []),
  ];
}

function filesOfPart(part: MadePart, picture: () => Uint8Array): readonly PlannedFile[] {
  const { name } = part.request;
  const paths = partFiles(name);
  return [
    ...meshStates.map((state) => ({
      path: paths[state],
      make: () => stlOf(name, state, part.meshes[state]),
    })),
    { path: paths.gated3mf, make: () => gated3mfOf(name, part.meshes.gated) },
    { path: paths.preview, make: picture },
  ];
}

function filesOfPlate(
  plate: PlateSummary,
  { summary, parts }: JobResult,
  plan: () => string,
): readonly PlannedFile[] {
  const paths = plateFiles(plate.name);
  const meshes = once(() =>
    plateMeshFiles(plate, summary.job.title, (name) => (parts.get(name) as MadePart).meshes.gated),
  );
  return [
    { path: paths.stl, make: () => meshes().stl() },
    { path: paths.threeMf, make: () => meshes().threeMf() },
    { path: paths.plan, make: () => text(plan()) },
  ];
}
