import { showText } from '../../../core/part/input-problem.js';
import { keepMeshes, keptMeshes } from './kept-meshes.js';
import { largestFile, megabyte, mostHeld } from './limits.js';
import { isMeshName, meshFormatWords, writtenName } from './mesh-names.js';
import type { MeshRef } from './mesh-ref.js';

/** The browser's database may be long in coming, ms: the page does not wait for ever. */
const patience = 5000;

export type Opening =
  | { readonly ok: true; readonly ref: MeshRef }
  | { readonly ok: false; readonly message: string };

/**
 * The mesh files that are open on this page. Their bytes lie with the browser, outside the page's own memory; what can
 * be undone may name them still, so they are let go only when others need the room.
 */
export class OpenMeshes {
  readonly #blobs = new Map<string, Blob>();

  /** Copies a file's bytes, so that they stay what they were whatever happens to the file. `inUse` are not let go for it. */
  async open(file: File, inUse: readonly MeshRef[] = []): Promise<Opening> {
    const shown = showText(file.name);
    const refused = (message: string): Opening => ({ ok: false, message });
    if (!isMeshName(file.name)) return refused(`${shown} is no mesh file: open ${meshFormatWords}.`);
    if (file.size === 0) return refused(`${shown} is empty.`);
    if (file.size > largestFile)
      return refused(
        `${shown} has ${Math.ceil(file.size / megabyte)} MB: the page opens files of at most ${largestFile / megabyte} MB. The command line takes larger ones; or save the mesh with fewer triangles.`,
      );
    if (!this.#makeRoom(file.size, inUse))
      return refused(
        `With ${shown} the open mesh files would hold more than ${mostHeld / megabyte} MB: take a piece out of the job first.`,
      );
    try {
      const blob = new Blob([await file.arrayBuffer()]);
      const id = newId();
      this.#blobs.set(id, blob);
      return { ok: true, ref: { name: writtenName(file.name), id } };
    } catch {
      return refused(`${shown} cannot be read: it was moved or changed, or may not be opened.`);
    }
  }

  has = ({ id }: MeshRef): boolean => this.#blobs.has(id);

  bytes = (id: string): Blob | undefined => this.#blobs.get(id);

  /** Has the browser keep these over a reload, and no others. @returns whether it could */
  keep(refs: readonly MeshRef[]): Promise<boolean> {
    return keepMeshes(
      new Map(refs.flatMap(({ id }) => (this.#blobs.has(id) ? [[id, this.#blobs.get(id) as Blob]] : []))),
    );
  }

  /** Takes in those that were kept. */
  async recall(refs: readonly MeshRef[]): Promise<void> {
    const wanted = refs.filter((ref) => !this.has(ref)).map(({ id }) => id);
    if (wanted.length === 0) return;
    const late = new Promise<undefined>((resolve) => setTimeout(resolve, patience));
    const kept = await Promise.race([keptMeshes(wanted), late]);
    for (const [id, blob] of kept ?? [])
      if (blob.size <= largestFile && this.#makeRoom(blob.size, refs)) this.#blobs.set(id, blob);
  }

  /** Lets go of the oldest that are not in use. @returns whether there is room now */
  #makeRoom(size: number, inUse: readonly MeshRef[]): boolean {
    let held = size;
    for (const blob of this.#blobs.values()) held += blob.size;
    for (const [id, blob] of this.#blobs) {
      if (held <= mostHeld) break;
      if (inUse.some((ref) => ref.id === id)) continue;
      this.#blobs.delete(id);
      held -= blob.size;
    }
    return held <= mostHeld;
  }
}

/** Also where the page is not served securely, and `randomUUID` is not there. */
const newId = (): string =>
  [...crypto.getRandomValues(new Uint32Array(4))].map((n) => n.toString(16).padStart(8, '0')).join('');

/** The page's. */
export const pageMeshes = new OpenMeshes();
