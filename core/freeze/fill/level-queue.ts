/**
 * Cells waiting, by layer: the lowest layer's first, within a layer the one that came first. Neighbours lie at most a
 * layer apart, so every step takes constant time. A class for its arrays, which are as long as the field.
 */
export class LevelQueue {
  readonly #first: Int32Array;
  readonly #last: Int32Array;
  readonly #after: Int32Array;
  #lowest: number;

  constructor(layers: number, after: Int32Array) {
    this.#first = new Int32Array(layers).fill(-1);
    this.#last = new Int32Array(layers).fill(-1);
    this.#after = after;
    this.#lowest = layers;
  }

  push(cell: number, layer: number): void {
    const last = this.#last[layer]!;
    if (this.#first[layer]! < 0) this.#first[layer] = cell;
    else this.#after[last] = cell;
    this.#last[layer] = cell;
    this.#after[cell] = -1;
    if (layer < this.#lowest) this.#lowest = layer;
  }

  /** The next cell; −1: none waits. */
  pop(): number {
    const layers = this.#first.length;
    while (this.#lowest < layers && this.#first[this.#lowest]! < 0) this.#lowest++;
    if (this.#lowest === layers) return -1;
    const cell = this.#first[this.#lowest]!;
    this.#first[this.#lowest] = this.#after[cell]!;
    return cell;
  }
}
