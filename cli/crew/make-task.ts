/** A part made and put on the shelf, and had from there. */
import type { JobPart } from '../../core/job/job.js';
import { makeRequest } from '../../core/job/make-request.js';
import type { Finding } from '../../core/part/finding.js';
import type { Kernel } from '../../core/solid/types.js';
import { LostPart, type StoredPart } from '../store/store.js';
import type { Bench } from './bench.js';
import { filesOf, readRecord } from './part-entry.js';
import type { Shelf } from './shelf.js';
import { isOwnCode, learntFrom } from './terms.js';

/** Makes a part and puts it on the shelf. */
export interface MakeTask {
  readonly kind: 'make';
  readonly key: string;
  readonly request: JobPart;
}
export type MakeAnswer =
  | { readonly ok: true; readonly kept: boolean }
  | { readonly ok: false; readonly findings: readonly Finding[] };

export const remakeWith = (kernel: Kernel, { terms, findPart }: Bench) => {
  const learnt = learntFrom(terms);
  return (request: JobPart) => makeRequest(request, findPart, terms.job, kernel, learnt);
};

export async function make({ key, request }: MakeTask, bench: Bench): Promise<MakeAnswer> {
  if (await readable(bench.shelf, key, readRecord)) return { ok: true, kept: true };
  const outcome = remakeWith(await bench.kernel(), bench)(request);
  if (!outcome.ok) return { ok: false, findings: outcome.findings };
  await bench.shelf.keep(key, null, filesOf(outcome.made), isOwnCode(request));
  return { ok: true, kept: false };
}

/** What another engine wrote, or what has gone meanwhile, is as if it had never been there. */
export async function readable<T>(
  shelf: Shelf,
  key: string,
  read: (stored: StoredPart) => Promise<T>,
): Promise<T | undefined> {
  const stored = await shelf.find(key);
  return stored && read(stored).catch(() => undefined);
}

/** What is on the shelf, made again where it has gone from there. @throws Error where it cannot be had at all */
export async function fetchWith(
  key: string,
  name: string,
  { shelf }: Bench,
  remake: () => Promise<unknown>,
): Promise<StoredPart> {
  const found = await shelf.find(key);
  if (found) return found;
  await remake();
  const again = await shelf.find(key);
  if (!again) throw new Error(`${name} has gone`);
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

export const fetchMade = (task: MakeTask, bench: Bench): Promise<StoredPart> =>
  fetchWith(task.key, task.request.name, bench, () => make(task, bench));
