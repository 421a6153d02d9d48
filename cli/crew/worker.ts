/** What a thread of the pool runs. */
import { workerData } from 'node:worker_threads';
import { move, transferableSymbol, valueSymbol } from 'piscina';
import { FolderError } from '../../core/files/folder-error.js';
import { loadKernel } from '../../core/solid/index.js';
import { findPart } from '../../generators/index.js';
import { startCrew } from '../freeze-crew.js';
import type { PartFilePlaces } from '../part-file/part-file-places.js';
import type { Bench } from './bench.js';
import { FileChanged } from './hands.js';
import type { Fault, PoolTerms, Reply } from './pool.js';
import { openShelf } from './shelf.js';
import { doTask, type Task } from './tasks.js';

const { terms, places, partFiles } = workerData as PoolTerms;
const notes: string[] = [];

const opening: Promise<Bench> = openBench();

async function openBench(): Promise<Bench> {
  if ((terms.job.meshFiles?.size ?? 0) > 0)
    await (await import('../../generators/mesh/load-building.js')).loadMeshBuilding();
  return {
    terms,
    shelf: await openShelf(places, (text) => notes.push(text)),
    kernel: () => loadKernel(),
    findPart: partFiles ? await findPartWith(partFiles) : findPart,
    callHands: (hands) => (hands > 1 ? startCrew(hands - 1) : undefined),
  };
}

/** Runs somebody's own files here too; what they print as they are read was printed by the thread that read the job. */
async function findPartWith(places: PartFilePlaces): Promise<Bench['findPart']> {
  const { findAmong, loadPartFiles } = await import('../part-files.js');
  const { changedPartFiles } = await import('../part-file/part-file-places.js');
  const changed = await changedPartFiles(places);
  const same = [...places.sums.keys()].filter((path) => !changed.has(path));
  const print = console.error;
  let isReading = true;
  console.error = (...words: unknown[]) => {
    if (!isReading) print(...words);
  };
  const find = findAmong(await loadPartFiles(same, places.folder, { err: () => undefined }));
  isReading = false;
  return (key) => {
    if (changed.has(key)) throw new FileChanged(`${key} has changed since the job was read`);
    return find(key);
  };
}

/** Does a task; bytes of the answer move to the thread that asked. */
export default async function work(task: Task): Promise<unknown> {
  let reply: Reply;
  try {
    const answer = await doTask(task, await opening);
    reply = { answer, notes: notes.splice(0) };
  } catch (error) {
    reply = { fault: faultOf(error), notes: notes.splice(0) };
  }
  const buffers = 'answer' in reply ? buffersIn(reply.answer) : [];
  return move({ [transferableSymbol]: buffers, [valueSymbol]: reply } as never);
}

const buffersIn = (answer: object): readonly ArrayBufferLike[] => [
  ...new Set(
    Object.values(answer).flatMap((value: unknown) => (value instanceof Uint8Array ? [value.buffer] : [])),
  ),
];

function faultOf(error: unknown): Fault {
  const message = error instanceof Error ? error.message : String(error);
  if (error instanceof FolderError) return { message, folder: { code: error.code, remedy: error.remedy } };
  if (error instanceof FileChanged) return { message, isChanged: true };
  const outOfMemory = error instanceof RangeError && /allocation failed|array buffer|memory/i.test(message);
  return { message, outOfMemory };
}
