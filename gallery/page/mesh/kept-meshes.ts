/** Mesh files that survive a reload, in the browser's own database. Nothing here throws: storage may be full or forbidden. */

const database = 'patternwright';
const store = 'meshes';

/** Keeps these, by id, and lets go of all others. @returns whether it could */
export async function keepMeshes(wanted: ReadonlyMap<string, Blob>): Promise<boolean> {
  try {
    return await within(async (meshes) => {
      const there = new Set((await answer(meshes.getAllKeys())).map(String));
      for (const id of there) if (!wanted.has(id)) meshes.delete(id);
      for (const [id, blob] of wanted) if (!there.has(id)) meshes.put(blob, id);
    });
  } catch {
    return false;
  }
}

/** Those of the ids that are kept. */
export async function keptMeshes(ids: readonly string[]): Promise<ReadonlyMap<string, Blob>> {
  const found = new Map<string, Blob>();
  try {
    await within(async (meshes) => {
      for (const id of ids) {
        const blob: unknown = await answer(meshes.get(id));
        if (blob instanceof Blob) found.set(id, blob);
      }
    });
  } catch {
    // What was found so far is had.
  }
  return found;
}

const answer = <T>(request: IDBRequest<T>): Promise<T> =>
  new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });

/** One transaction. @returns true when it is on the disk */
async function within(work: (meshes: IDBObjectStore) => Promise<void>): Promise<true> {
  const opening = indexedDB.open(database, 1);
  opening.onupgradeneeded = () => opening.result.createObjectStore(store);
  const opened = await answer(opening);
  try {
    const transaction = opened.transaction(store, 'readwrite');
    const ended = new Promise<true>((resolve, reject) => {
      transaction.oncomplete = () => resolve(true);
      transaction.onabort = () => reject(transaction.error);
    });
    await Promise.all([work(transaction.objectStore(store)), ended]);
    return true;
  } finally {
    opened.close();
  }
}
