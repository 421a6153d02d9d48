/** One part, made by a program. */
import type { FreezeLevel } from '../../core/freeze/plans.js';
import type { JobProblem } from '../../core/job/job-problem.js';
import type { JobResult, RefusedJob } from '../../core/job/make-job.js';
import type { PourRecord } from '../../core/log/record.js';
import type { MeshFile } from '../../core/mesh/mesh-file.js';
import type { PartDefinition } from '../../core/part/contract.js';
import { type InputProblem, showValue } from '../../core/part/input-problem.js';
import { JobError } from './job-error.js';
import { readGiven } from './read-given.js';

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
  const reading = await readGiven(JSON.stringify(job, readable), 'make', { parts, pourLog, meshFiles });
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
