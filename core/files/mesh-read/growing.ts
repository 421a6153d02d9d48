const firstChunk = 256;
const largestChunk = 2 ** 16;

/** Numbers as they come, in chunks: memory follows what was read, never what a file claims. */
class Growing<A extends Float64Array | Uint32Array> {
  length = 0;
  readonly #full: A[] = [];
  #chunk: A;
  #used = 0;

  constructor(private readonly make: (length: number) => A) {
    this.#chunk = make(firstChunk);
  }

  push(value: number): void {
    if (this.#used === this.#chunk.length) {
      this.#full.push(this.#chunk);
      this.#chunk = this.make(Math.min(2 * this.#used, largestChunk));
      this.#used = 0;
    }
    this.#chunk[this.#used++] = value;
    this.length++;
  }

  /** All of them in one array. */
  take(): A {
    const all = this.make(this.length);
    let at = 0;
    for (const chunk of this.#full) {
      all.set(chunk, at);
      at += chunk.length;
    }
    all.set(this.#chunk.subarray(0, this.#used), at);
    return all;
  }
}

export type GrowingFloats = Growing<Float64Array>;
export type GrowingIndices = Growing<Uint32Array>;
export const growingFloats = (): GrowingFloats => new Growing((length) => new Float64Array(length));
export const growingIndices = (): GrowingIndices => new Growing((length) => new Uint32Array(length));
