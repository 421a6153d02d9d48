/** Sets of the whole numbers below a size, joined and never parted. */
export class DisjointSets {
  readonly #parent: Uint32Array;

  constructor(size: number) {
    this.#parent = new Uint32Array(size);
    for (let i = 0; i < size; i++) this.#parent[i] = i;
  }

  /** The number that stands for the set of another. */
  find(i: number): number {
    const parent = this.#parent;
    let at = i;
    while (parent[at] !== at) {
      parent[at] = parent[parent[at]!]!;
      at = parent[at]!;
    }
    return at;
  }

  /** Joins two sets; what stands for the first stands for both. */
  join(a: number, b: number): void {
    const [ra, rb] = [this.find(a), this.find(b)];
    if (ra !== rb) this.#parent[rb] = ra;
  }
}
