import type { SentMesh, Sources } from './protocol.js';

/** Which mesh files a worker has, so that the bytes of each go to it once. */
export class SentMeshes {
  readonly #bytes: (id: string) => Blob | undefined;
  /** Those of the last order: the worker lets go of others. */
  #there: ReadonlySet<string> = new Set();

  constructor(bytes: (id: string) => Blob | undefined) {
    this.#bytes = bytes;
  }

  /** What an order from these sources has to bring along; it is taken to be sent. */
  toBring({ meshes = [] }: Sources): { readonly meshes?: readonly SentMesh[] } {
    const brought = meshes.flatMap(({ id }) => {
      const blob = this.#there.has(id) ? undefined : this.#bytes(id);
      return blob ? [{ id, blob }] : [];
    });
    this.#there = new Set(meshes.map(({ id }) => id));
    return brought.length === 0 ? {} : { meshes: brought };
  }

  /** The worker is another now. */
  forget(): void {
    this.#there = new Set();
  }
}
