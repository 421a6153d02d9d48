/** Distinct float32 positions in the order they came: open addressing on their bits (−0 counts as 0). */
export class PositionTable {
  /** Positions so far; they are numbered 0 up. */
  count = 0;
  readonly #slots: Int32Array;
  readonly #bits: Int32Array;
  readonly #floats = new Float32Array(3);
  readonly #asked = new Int32Array(this.#floats.buffer);

  /** @param most positions it may be given */
  constructor(most: number) {
    let size = 16;
    while (size < 2 * most) size *= 2;
    this.#slots = new Int32Array(size).fill(-1);
    this.#bits = new Int32Array(3 * most);
  }

  /** Number of the position, rounded to float32; a new one is taken in. */
  add(x: number, y: number, z: number): number {
    const slot = this.#slotOf(x, y, z);
    const known = this.#slots[slot]!;
    if (known >= 0) return known;
    this.#slots[slot] = this.count;
    this.#bits.set(this.#asked, 3 * this.count);
    return this.count++;
  }

  /** Number of the position, rounded to float32, or −1. */
  find(x: number, y: number, z: number): number {
    return this.#slots[this.#slotOf(x, y, z)]!;
  }

  /** All of them, x, y, z each. */
  positions(): Float32Array {
    return new Float32Array(this.#bits.buffer.slice(0, 12 * this.count));
  }

  /** The slot that holds the position, or the free one where it belongs. */
  #slotOf(px: number, py: number, pz: number): number {
    // + 0 makes −0 into 0
    this.#floats[0] = px + 0;
    this.#floats[1] = py + 0;
    this.#floats[2] = pz + 0;
    const x = this.#asked[0]!;
    const y = this.#asked[1]!;
    const z = this.#asked[2]!;
    let h = Math.imul(x, 0x9e3779b1) ^ Math.imul(y, 0x85ebca6b) ^ Math.imul(z, 0xc2b2ae35);
    h ^= h >>> 15;
    h = Math.imul(h, 0x2c1b3c6d);
    h ^= h >>> 13;
    const mask = this.#slots.length - 1;
    let slot = h & mask;
    for (;;) {
      const known = this.#slots[slot]!;
      if (known < 0) return slot;
      const at = 3 * known;
      if (this.#bits[at] === x && this.#bits[at + 1] === y && this.#bits[at + 2] === z) return slot;
      slot = (slot + 1) & mask;
    }
  }
}
