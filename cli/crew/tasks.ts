/** The pieces of work on a job. Each is told in plain data and answered in plain data, so that any thread may do it. */
import { deserialize, serialize } from 'node:v8';
import { castingsOf } from '../../core/job/castings-of.js';
import { gated3mfOf, plateMeshFiles } from '../../core/job/file-bytes.js';
import { type FrozenPaper, freezeMould, type MouldAtPour } from '../../core/job/freeze-mould.js';
import type { JobPart } from '../../core/job/job.js';
import type { PaperUnits } from '../../core/job/job-files.js';
import { type PackOrder, type PlanOrder, packOrdered, planOrdered } from '../../core/job/job-stages.js';
import type { PartRecord } from '../../core/job/make-part.js';
import { makeRequest } from '../../core/job/make-request.js';
import type { PlannedJob, RefusedJob } from '../../core/job/plan-job.js';
import { present } from '../../core/job/present.js';
import type { PartSummary, PlateSummary, Summary } from '../../core/job/summary.js';
import type { PartDefinition } from '../../core/part/contract.js';
import type { Finding } from '../../core/part/finding.js';
import { type DrawnPart, formatFigure, formatSheet } from '../../core/report/drawing/index.js';
import type { Kernel, Mesh } from '../../core/solid/types.js';
import type { FreezeCrew } from '../freeze-crew.js';
import { startTimer } from '../start-timer.js';
import { keyOf } from '../store/key.js';
import { LostPart, type StoredPart } from '../store/store.js';
import { entryOf, type KeptRecord, readDrawings, readGated, readInMould, readRecord } from './part-entry.js';
import type { Shelf } from './shelf.js';
import { isOwnCode, learntFrom, type Terms } from './terms.js';

/** Makes a part and puts it on the shelf. */
export interface MakeTask {
  readonly kind: 'make';
  readonly key: string;
  readonly request: JobPart;
}
export type MakeAnswer =
  | { readonly ok: true; readonly record: KeptRecord; readonly kept: boolean }
  | { readonly ok: false; readonly findings: readonly Finding[] };

/** Freezes a part's mould, and puts on the shelf what the papers show of it and the part that is better gated. */
export interface FreezeTask {
  readonly kind: 'freeze';
  readonly key: string;
  readonly part: MakeTask;
  readonly at: MouldAtPour;
  /** Threads to work at it together. */
  readonly hands: number;
}
export interface Regated {
  readonly gating?: JobPart['gating'];
  readonly gates?: number;
  readonly record: KeptRecord;
}
export interface FreezeAnswer {
  /** Left out where the job wants none of it. */
  readonly paper?: { readonly plan: FrozenPaper['plan']; readonly fields?: true };
  readonly regated?: Regated;
  readonly kept: boolean;
}

/** Where a part is to be had: on the shelf, or made again by the task it came of. */
export type PartSource = MakeTask | FreezeTask;

/** Works out the trees that the job's small patterns go on. */
export interface PackTask {
  readonly kind: 'pack';
  readonly order: PackOrder<PartRecord>;
}

/** Works out plates and papers. */
export interface PlanTask {
  readonly kind: 'plan';
  readonly order: PlanOrder<PartRecord>;
  readonly keepGoing: boolean;
}
export type PlanAnswer =
  | RefusedJob
  | {
      readonly summary: Summary;
      /** Of the parts it tells of, in order. */
      readonly names: readonly string[];
      readonly notMade: PlannedJob['notMade'];
    };

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

/** Writes the meshes of a plate. */
export interface PlateTask {
  readonly kind: 'plate';
  readonly plate: PlateSummary;
  readonly title: string;
  readonly parts: ReadonlyMap<string, PartSource>;
}
export interface PlateAnswer {
  readonly stl: Uint8Array;
  readonly threeMf: Uint8Array;
}

export interface Answers {
  readonly make: MakeAnswer;
  readonly freeze: FreezeAnswer;
  readonly pack: { readonly trees: readonly JobPart[] };
  readonly plan: PlanAnswer;
  readonly papers: PapersAnswer;
  readonly plate: PlateAnswer;
}
export type Task = MakeTask | FreezeTask | PackTask | PlanTask | PapersTask | PlateTask;
export type AnswerTo<T extends Task> = Answers[T['kind']];

/** What a thread works with. */
export interface Bench {
  readonly terms: Terms;
  readonly shelf: Shelf;
  readonly kernel: () => Promise<Kernel>;
  readonly findPart: (name: string) => PartDefinition | undefined;
  /** Calls threads to help with one mould. */
  readonly callHands: (hands: number) => FreezeCrew | undefined;
}

export const doTask = <T extends Task>(
  task: T,
  bench: Bench,
  onShare?: (share: number) => void,
): Promise<AnswerTo<T>> => dispatch(task, bench, onShare) as Promise<AnswerTo<T>>;

function dispatch(
  task: Task,
  bench: Bench,
  onShare?: (share: number) => void,
): Promise<Answers[keyof Answers]> {
  switch (task.kind) {
    case 'make':
      return make(task, bench);
    case 'freeze':
      return freeze(task, bench, onShare);
    case 'pack':
      return Promise.resolve({ trees: packOrdered(task.order) });
    case 'plan':
      return plan(task, bench);
    case 'papers':
      return papers(task, bench);
    case 'plate':
      return plate(task, bench);
  }
}

const remakeWith = (kernel: Kernel, { terms, findPart }: Bench) => {
  const learnt = learntFrom(terms);
  return (request: JobPart) => makeRequest(request, findPart, terms.job, kernel, learnt);
};

async function make({ key, request }: MakeTask, bench: Bench): Promise<MakeAnswer> {
  const known = await readable(bench.shelf, key, readRecord);
  if (known) return { ok: true, record: known, kept: true };
  const outcome = remakeWith(await bench.kernel(), bench)(request);
  if (!outcome.ok) return { ok: false, findings: outcome.findings };
  const { record, files } = entryOf(outcome.made);
  await bench.shelf.keep(key, null, files, isOwnCode(request));
  return { ok: true, record, kept: false };
}

interface KeptPaper {
  readonly paper?: FreezeAnswer['paper'];
  readonly regated?: Omit<Regated, 'record'>;
}

/** Where the part lies that a mould's freezing gated anew. */
const regatedKey = ({ key }: FreezeTask): string => keyOf(['regated', key]);

async function freeze(
  task: FreezeTask,
  bench: Bench,
  onShare?: (share: number) => void,
): Promise<FreezeAnswer> {
  const { shelf, terms } = bench;
  const known = await readable(shelf, task.key, readPaper);
  if (known) {
    const { paper, regated } = known;
    const record = regated && (await readable(shelf, regatedKey(task), readRecord));
    if (!regated) return { ...present({ paper }), kept: true };
    if (record) return { ...present({ paper }), regated: { ...regated, record }, kept: true };
  }
  const given = await again(
    () => fetchPart(task.part, bench),
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
    return await keepFrozen(task, frozen, shelf);
  } finally {
    crew?.close();
  }
}

async function keepFrozen(
  task: FreezeTask,
  frozen: ReturnType<typeof freezeMould>,
  shelf: Shelf,
): Promise<FreezeAnswer> {
  if (!frozen) return { kept: false };
  const { plan, section, surface, fields } = frozen.paper;
  const paper = { plan, ...(fields ? { fields: true as const } : {}) };
  const isPassing = isOwnCode(task.part.request);
  let regated: Regated | undefined;
  if (frozen.regated) {
    const { gating, gates } = frozen.regated.request;
    const { record, files } = entryOf(frozen.regated);
    regated = { ...present({ gating, gates }), record };
    await shelf.keep(regatedKey(task), null, files, isPassing);
  }
  const told: KeptPaper = { paper, ...(regated && { regated: withoutRecord(regated) }) };
  const text = (name: string, value: string) => ({ name, bytes: new TextEncoder().encode(value) });
  const files = [
    { name: 'paper', bytes: serialize(told) },
    text('section', section),
    text('surface', surface),
    ...(fields ? [{ name: 'fields', bytes: fields }] : []),
  ];
  await shelf.keep(task.key, null, files, isPassing);
  return { paper, ...present({ regated }), kept: false };
}

const withoutRecord = ({ record: _record, ...rest }: Regated): Omit<Regated, 'record'> => rest;

const readPaper = async (stored: StoredPart): Promise<KeptPaper> =>
  deserialize(await stored.read('paper')) as KeptPaper;

async function plan({ order, keepGoing }: PlanTask, { terms }: Bench): Promise<PlanAnswer> {
  const planned = planOrdered(order, { learntGrowth: learntFrom(terms), startTimer, keepGoing });
  if ('refused' in planned) return planned;
  const { summary, parts, notMade } = planned;
  return { summary, names: [...parts.keys()], notMade };
}

async function papers({ part, told, units }: PapersTask, bench: Bench): Promise<PapersAnswer> {
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

async function plate({ plate: told, title, parts }: PlateTask, bench: Bench): Promise<PlateAnswer> {
  const gated = new Map<string, Mesh>();
  for (const [name, source] of parts) {
    gated.set(name, await again(() => fetchPart(source, bench), readGated));
  }
  const files = plateMeshFiles(told, title, (name) => gated.get(name) as Mesh);
  return { stl: files.stl(), threeMf: files.threeMf() };
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

/** What is on the shelf, made again where it has gone from there. */
export async function fetchPart(source: PartSource, bench: Bench): Promise<StoredPart> {
  const key = source.kind === 'make' ? source.key : regatedKey(source);
  const found = await bench.shelf.find(key);
  if (found) return found;
  await doTask<PartSource>(source, bench);
  const again = await bench.shelf.find(key);
  if (!again)
    throw new Error(`${source.kind === 'make' ? source.request.name : source.part.request.name} has gone`);
  return again;
}

export async function fetchPaper(source: FreezeTask, bench: Bench): Promise<StoredPart> {
  const found = await bench.shelf.find(source.key);
  if (found) return found;
  await doTask(source, bench);
  const again = await bench.shelf.find(source.key);
  if (!again) throw new Error(`${source.part.request.name} has gone`);
  return again;
}

/** Uses what lies on the shelf; what has gone from there since it was found, or turns out damaged, is made again. */
export async function again<T>(
  fetch: () => Promise<StoredPart>,
  use: (stored: StoredPart) => Promise<T>,
): Promise<T> {
  for (let tries = 3; ; tries--) {
    try {
      return await use(await fetch());
    } catch (error) {
      if (!(error instanceof LostPart) || tries === 1) throw error;
    }
  }
}

/** What another engine wrote, or what has gone meanwhile, is as if it had never been there. */
async function readable<T>(
  shelf: Shelf,
  key: string,
  read: (stored: StoredPart) => Promise<T>,
): Promise<T | undefined> {
  const stored = await shelf.find(key);
  return stored && read(stored).catch(() => undefined);
}
