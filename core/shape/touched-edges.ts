import { nextOf, type SurfaceMesh } from './surface-mesh.js';

/** Edges of a mesh to be looked at, each once, named by the lower of its half-edges. */
export class TouchedEdges {
  readonly #mesh: SurfaceMesh;
  readonly #list: number[] = [];
  #waiting = new Uint8Array(0);

  constructor(mesh: SurfaceMesh) {
    this.#mesh = mesh;
  }

  /** The edge added last, taken off the list; undefined when there is none. It may be gone from the mesh. */
  take(): number | undefined {
    const h = this.#list.pop();
    if (h !== undefined) this.#waiting[h] = 0;
    return h;
  }

  clear(): void {
    for (const h of this.#list) this.#waiting[h] = 0;
    this.#list.length = 0;
  }

  addAll(): void {
    for (let h = 0; h < this.#mesh.halfEdges; h++) if (!this.#mesh.isGone(h)) this.add(h);
  }

  /** The four edges round the two triangles on an edge. */
  addBeside(h: number): void {
    const t = this.#mesh.twin[h]!;
    for (const k of [nextOf(h), nextOf(nextOf(h)), nextOf(t), nextOf(nextOf(t))]) this.add(k);
  }

  add(h: number): void {
    const one = Math.min(h, this.#mesh.twin[h]!);
    if (this.#waiting.length < this.#mesh.from.length) {
      const grown = new Uint8Array(this.#mesh.from.length);
      grown.set(this.#waiting);
      this.#waiting = grown;
    }
    if (this.#waiting[one] === 1) return;
    this.#waiting[one] = 1;
    this.#list.push(one);
  }

  /** The edges of all triangles round a vertex. */
  addRound(vertex: number): void {
    const mesh = this.#mesh;
    const first = mesh.leaving[vertex]!;
    let h = first;
    do {
      this.add(h);
      this.add(nextOf(h));
      h = nextOf(mesh.twin[h]!);
    } while (h !== first);
  }
}
