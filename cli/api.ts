/** The package's programmatic face, and what part files are written with. */

import { writeFolder as writeFolderAt } from '../core/files/folder.js';
import type { FreezeLevel } from '../core/freeze/plans.js';
import type { Job, JobPart } from '../core/job/job.js';
import type { MeshFault } from '../core/job/job-context.js';
import { type JobFile, jobFiles, type PaperUnits } from '../core/job/job-files.js';
import { formatProblem, type JobProblem } from '../core/job/job-problem.js';
import { type JobResult, makeJob, type RefusedJob } from '../core/job/make-job.js';
import type { MadePart } from '../core/job/make-part.js';
import { parseJob } from '../core/job/read-job.js';
import type { Summary } from '../core/job/summary.js';
import { growthFromLog } from '../core/log/growth.js';
import type { PourRecord } from '../core/log/record.js';
import type { MeshFile } from '../core/mesh/mesh-file.js';
import type { PartDefinition } from '../core/part/contract.js';
import { formatInput, type InputProblem, showValue } from '../core/part/input-problem.js';
import { loadKernel } from '../core/solid/index.js';
import { findPart, partNames } from '../generators/index.js';
import { jobContext } from '../generators/job-context.js';
import { readWithMeshFiles } from './mesh-files.js';
import { startTimer } from './start-timer.js';

export { z } from 'zod';
export { FolderError } from '../core/files/folder-error.js';
export { FormatError } from '../core/files/format-error.js';
/** What an STL, 3MF, OBJ or PLY file holds, for `meshFiles`. */
export { readMeshFile } from '../core/files/mesh-read/index.js';
export { growthFromLog } from '../core/log/growth.js';
export { type LogReading, parseLog } from '../core/log/line.js';
export type { RatioEstimate } from '../core/log/ratio-estimate.js';
/** Sine, power and the like with the same bits on every machine: what a part is drawn by. */
export { maths } from '../core/maths/maths.js';
export type {
  BuildKit,
  BuildResult,
  BuiltPart,
  Dimension,
  DimensionAxis,
  Fitting,
  GatePlace,
  PartDefinition,
  Piece,
  RefusedPart,
  SurfaceNote,
  VentPlace,
} from '../core/part/contract.js';
export { definePart, freeFormTolerance, refuse, usualTolerance } from '../core/part/contract.js';
export { lengthDimension } from '../core/part/dimension.js';
export type { DimensionNote, DrawingNotes, ViewNote } from '../core/part/drawing-notes.js';
export { angle, choice, count, flag, length, number, text } from '../core/part/fields.js';
export { type Change, type Finding, hasStop, note, stop, warn } from '../core/part/finding.js';
export { isNoStock, noStock, type Stock, type SurfaceClass } from '../core/part/stock.js';
/** Outlines of lines and arcs, offset exactly: circles, oblongs, rounded rectangles, any. */
/** Plates, recesses, openings and holes, each surface by its stock. */
/** Smooth bodies by their distance fields, joined with fillets. */
/** Tubes swept along a spine, and the thinnest wall of a mesh. */
export {
  arc,
  ballField,
  barField,
  bevelEdge,
  blendFields,
  circleOutline,
  coneField,
  cutField,
  drawOutline,
  type Edge,
  type Field,
  fieldSolid,
  type Hole,
  type HoleOptions,
  type HoleStock,
  holeCutter,
  line,
  measureThinnest,
  mirrorField,
  moveField,
  noHoleStock,
  noPlateStock,
  noTubeStock,
  type Opening,
  type Outline,
  obroundOutline,
  offsetOutline,
  openingCutter,
  outlinePolygon,
  type Plate,
  type PlateField,
  type PlateStock,
  placeOutline,
  placeTool,
  plateField,
  plateSolid,
  polygonOutline,
  profileSolid,
  type Recess,
  recessCutter,
  rectangleOutline,
  ringField,
  roundCorners,
  roundEdge,
  type Sweep,
  type SweepSection,
  sharpEdge,
  sweepTube,
  type Thinnest,
  type Tube,
  type TubeStock,
  tubeField,
  tubeSolid,
  turnedField,
  turnField,
} from '../core/shape/index.js';
export { inspectMesh } from '../core/solid/index.js';
export type { Box, Kernel, Mesh, Polygon, Solid, Vec2, Vec3 } from '../core/solid/types.js';
export type {
  InputProblem,
  Job,
  JobFile,
  JobPart,
  JobProblem,
  JobResult,
  MadePart,
  MeshFile,
  PaperUnits,
  PourRecord,
  RefusedJob,
  Summary,
};
export { jobFiles, partNames };

/** A job, or the parameters and settings of one part, that cannot be read: every problem at once. */
export class JobError extends Error {
  override readonly name = 'JobError';
  /** Those of a job's text have their place in it. */
  readonly problems: readonly (InputProblem & Partial<JobProblem>)[];

  constructor(problems: readonly (InputProblem | JobProblem)[]) {
    const lines = problems.map((p) => ('line' in p ? formatProblem(p) : formatInput(p)));
    super([...new Set(lines)].join('\n'));
    this.problems = problems;
  }
}

/**
 * Writes an output folder as a whole: until the last file is written, `folder` is what it was before. Replaces only
 * a missing or empty folder, or one that this program wrote; all that is in such a folder goes.
 * @throws FolderError for a folder that is not this program's, a full or read-only disk
 */
export const writeFolder = (
  folder: string,
  files: Iterable<JobFile> | AsyncIterable<JobFile>,
): Promise<void> => writeFolderAt(folder, files);

/** Settings of `make` beside the part's parameters; the names and forms of a plate job. */
export interface MakeSettings {
  readonly name?: string;
  readonly alloy?: string;
  readonly investment?: string;
  readonly growth?: number | 'handbook' | 'causes' | 'log';
  /** The shop's records, for `growth: 'log'`: read them with `parseLog`. */
  readonly pourLog?: readonly PourRecord[];
  /** What the mesh files hold that parameters name, by those names: read them with `readMeshFile`. */
  readonly meshFiles?: ReadonlyMap<string, MeshFile>;
  readonly quantity?: number;
  /** The one casting to make of a part that consists of several; all where it is left out. */
  readonly piece?: string;
  readonly tolerance?: number | string;
  readonly layerHeight?: number | string;
  readonly stock?: Readonly<
    Partial<Record<'flank' | 'tip' | 'face' | 'bore' | 'skin' | 'mating', number | string>>
  >;
  readonly units?: 'mm' | 'in';
  /** How finely filling and freezing are worked out; `coarse` where left out. */
  readonly freeze?: FreezeLevel;
  /** From the kiln to the pour. */
  readonly pourDelay?: number | string;
  /** Whether other gatings are tried where the casting would be unsound. */
  readonly improve?: boolean;
  /** Whether what was worked out of every cell is among the files. */
  readonly freezeFields?: boolean;
}

/**
 * Makes one part by name, or one of your own made with `definePart`, through all its states. Parameters are
 * numbers in mm and degrees, or text such as `1 1/2in`, as in a plate job.
 * @returns meshes and summary, or the findings that refuse it; write them with `writeFolder(folder, jobFiles(...))`
 * @throws JobError for parameters or settings that cannot be read
 */
export async function make(
  part: string | PartDefinition,
  parameters: Readonly<Record<string, unknown>> = {},
  settings: MakeSettings = {},
): Promise<JobResult | RefusedJob> {
  const own = typeof part === 'string' ? undefined : part;
  const partName = own?.name ?? (part as string);
  const { name = partName, quantity, piece, pourLog, meshFiles, ...shared } = settings;
  const job = {
    job: name,
    ...shared,
    parts: [
      {
        name,
        part: partName,
        parameters,
        ...(quantity === undefined ? {} : { quantity }),
        ...(piece === undefined ? {} : { piece }),
      },
    ],
  };
  const parts = own ? [own] : [];
  const reading = await read(JSON.stringify(job, readable), 'make', { parts, pourLog, meshFiles });
  if ('problems' in reading) throw new JobError(reading.problems.map(asGiven));
  return reading.make();
}

/** What JSON would leave out or change is kept as text, so that it is refused. */
const readable = (_key: string, value: unknown): unknown => {
  const changed = ['bigint', 'function', 'symbol'].includes(typeof value);
  return changed || (typeof value === 'number' && !Number.isFinite(value)) ? showValue(value) : value;
};

/** The path as the caller of `make` wrote it; there is no text to have a place in. */
const asGiven = ({ code, path, got, message, remedy }: JobProblem): InputProblem => {
  const [first, second, ...rest] = path;
  const inPart = first === 'parts' && second === '0';
  return { code, got, message, remedy, path: inPart ? rest : first === 'job' ? ['name'] : path };
};

/**
 * Makes a whole plate job from its YAML text.
 * @param options.parts part definitions of your own that the job may name
 * @param options.pourLog the shop's records, for `growth: log`
 * @param options.meshFiles what the mesh files hold that the job names, by those names
 * @param options.keepGoing leaves out parts that cannot be made, which `notMade` of the result then tells, and makes the
 * rest; left out, one such part refuses the job
 * @throws JobError when the job cannot be read
 */
export async function plate(
  yaml: string,
  options: {
    readonly fileName?: string;
    readonly parts?: readonly PartDefinition[];
    readonly pourLog?: readonly PourRecord[];
    readonly meshFiles?: ReadonlyMap<string, MeshFile>;
    readonly keepGoing?: boolean;
  } = {},
): Promise<JobResult | RefusedJob> {
  const reading = await read(yaml, options.fileName ?? 'job', options);
  if ('problems' in reading) throw new JobError(reading.problems);
  return reading.make();
}

interface Given {
  readonly parts?: readonly PartDefinition[] | undefined;
  readonly pourLog?: readonly PourRecord[] | undefined;
  readonly meshFiles?: ReadonlyMap<string, MeshFile> | undefined;
  readonly keepGoing?: boolean | undefined;
}

async function read(
  source: string,
  fileName: string,
  { parts: own = [], pourLog = [], meshFiles, keepGoing }: Given,
): Promise<
  { readonly problems: readonly JobProblem[] } | { readonly make: () => Promise<JobResult | RefusedJob> }
> {
  const find = (name: string): PartDefinition | undefined =>
    own.find((p) => p.name === name) ?? findPart(name);
  const context = {
    ...jobContext(fileName),
    knownParts: find,
    partNames: [...new Set([...own.map((p) => p.name), ...partNames])],
  };
  const reading = await readWithMeshFiles(
    (meshFaults) => parseJob(source, { ...context, ...(meshFaults && { meshFaults }) }),
    async (name) => givenMesh(meshFiles?.get(name)),
    find,
  );
  return reading.ok
    ? {
        make: async () =>
          makeJob(reading.job, {
            kernel: await loadKernel(),
            findPart: find,
            keepGoing,
            startTimer,
            learntGrowth: (alloy, investment) => growthFromLog(pourLog, alloy, investment),
          }),
      }
    : { problems: reading.problems };
}

/** Callers without types may give anything, such as the file's bytes. */
function givenMesh(file: unknown): MeshFile | MeshFault {
  if (file !== null && typeof file === 'object' && 'mesh' in file) return file as MeshFile;
  return {
    message: file === undefined ? 'is not among the meshFiles' : 'is among the meshFiles, but not as a mesh',
    remedy: 'read it with readMeshFile, and give it in meshFiles by this name',
  };
}
