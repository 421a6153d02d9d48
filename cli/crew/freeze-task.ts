/** A mould frozen: what the papers show of it, and its part where another gating served better, on the shelf. */
import { deserialize, serialize } from 'node:v8';
import { type FrozenPaper, freezeMould, type MouldAtPour } from '../../core/job/freeze-mould.js';
import type { Asked, JobPart } from '../../core/job/job.js';
import { present } from '../../core/job/present.js';
import { keyOf } from '../store/key.js';
import type { StoredPart } from '../store/store.js';
import type { Bench } from './bench.js';
import { again, fetchMade, fetchWith, type MakeTask, readable, remakeWith } from './make-task.js';
import { filesOf, readInMould, readRecord } from './part-entry.js';
import { isOwnCode } from './terms.js';

/** Freezes a part's mould, and puts on the shelf what the papers show of it and the part that is better gated. */
export interface FreezeTask {
  readonly kind: 'freeze';
  readonly key: string;
  readonly part: MakeTask;
  readonly at: MouldAtPour;
  /** Threads to work at it together. */
  readonly hands: number;
}
/** What a part is gated with that is better so. */
export type Regated = Pick<JobPart, 'gating' | 'gates'>;
export interface FreezeAnswer {
  /** Left out where the job wants none of it. */
  readonly paper?: { readonly plan: FrozenPaper['plan']; readonly fields?: true };
  readonly regated?: Regated;
  readonly kept: boolean;
}

/** Where a part is to be had: on the shelf, or made again by the task it came of. */
export type PartSource = MakeTask | FreezeTask;

/** A made part: for which request, and where all the rest of it lies. */
export interface CrewPart extends Asked {
  readonly source: PartSource;
}

/** What there is to read of a mould on the shelf. */
type KeptPaper = Omit<FreezeAnswer, 'kept'>;

/** Where the part lies that a mould's freezing gated anew. */
const regatedKey = ({ key }: FreezeTask): string => keyOf(['regated', key]);

/** Of what a source gives; the same for the same thing. */
export const keyOfSource = (source: PartSource): string =>
  source.kind === 'make' ? source.key : regatedKey(source);

export async function freeze(
  task: FreezeTask,
  bench: Bench,
  onShare?: (share: number) => void,
): Promise<FreezeAnswer> {
  const { shelf, terms } = bench;
  const known = await readable(shelf, task.key, readPaper);
  if (known && (!known.regated || (await readable(shelf, regatedKey(task), readRecord))))
    return { ...known, kept: true };
  const given = await again(
    () => fetchMade(task.part, bench),
    (stored) => readInMould(stored, task.part.request),
  );
  const kernel = terms.job.improve ? await bench.kernel() : undefined;
  const remake = (request: JobPart) => {
    if (kernel === undefined) throw new Error('No kernel is loaded.');
    return remakeWith(kernel, bench)(request);
  };
  const crew = bench.callHands(task.hands);
  try {
    const frozen = freezeMould(given, task.at, { job: terms.job, remake, crew, onShare });
    return await keepFrozen(task, frozen, bench);
  } finally {
    crew?.close();
  }
}

async function keepFrozen(
  task: FreezeTask,
  frozen: ReturnType<typeof freezeMould>,
  { shelf }: Bench,
): Promise<FreezeAnswer> {
  if (!frozen) return { kept: false };
  const { plan, section, surface, fields } = frozen.paper;
  const paper = { plan, ...(fields ? { fields: true as const } : {}) };
  const isPassing = isOwnCode(task.part.request);
  let regated: Regated | undefined;
  if (frozen.regated) {
    const { gating, gates } = frozen.regated.request;
    regated = present({ gating, gates });
    await shelf.keep(regatedKey(task), null, filesOf(frozen.regated), isPassing);
  }
  const told: KeptPaper = { paper, ...present({ regated }) };
  const text = (name: string, value: string) => ({ name, bytes: new TextEncoder().encode(value) });
  const files = [
    { name: 'paper', bytes: serialize(told) },
    text('section', section),
    text('surface', surface),
    ...(fields ? [{ name: 'fields', bytes: fields }] : []),
  ];
  await shelf.keep(task.key, null, files, isPassing);
  return { ...told, kept: false };
}

const readPaper = async (stored: StoredPart): Promise<KeptPaper> =>
  deserialize(await stored.read('paper')) as KeptPaper;

export const fetchPart = (source: PartSource, bench: Bench): Promise<StoredPart> =>
  source.kind === 'make'
    ? fetchMade(source, bench)
    : fetchWith(regatedKey(source), source.part.request.name, bench, () => freeze(source, bench));

export const fetchPaper = (source: FreezeTask, bench: Bench): Promise<StoredPart> =>
  fetchWith(source.key, source.part.request.name, bench, () => freeze(source, bench));
