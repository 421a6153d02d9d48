import { turnOf } from './turn.js';

/** How many corners may still be looked at; below 0 the face was too much. */
export interface CutBudget {
  left: number;
}

const mostLate = 64;

/**
 * The corners of a face that do not stick out, one of which may stand in a triangle that is to be cut off. Kept in
 * order along the face's longer side, so that only those beside the triangle are asked.
 */
export class Bays {
  #sorted: number[];
  /** Come later, in no order. */
  #late: number[] = [];
  /** In the lists, but no longer in anyone's way. */
  #gone = 0;
  readonly #along: 0 | 1;

  /**
   * @param flat corners, x and y each
   * @param turns of each corner: above 0 where it sticks out or is cut off; the caller keeps it
   */
  constructor(
    private readonly flat: Float64Array,
    private readonly turns: Float64Array,
    private readonly budget: CutBudget,
  ) {
    this.#along = longerSide(flat);
    this.#sorted = this.#inOrder([...turns.keys()]);
  }

  /** A corner that has come to be one. */
  add(corner: number): void {
    this.#late.push(corner);
    if (this.#late.length > mostLate) this.#sweep();
  }

  /** One of them sticks out now, or is cut off. */
  leave(): void {
    this.#gone++;
    if (2 * this.#gone > this.#sorted.length + this.#late.length) this.#sweep();
  }

  /** Whether one stands in the triangle of three corners or on its rim, and not on one of its corners. */
  standIn(a: number, b: number, c: number): boolean {
    const { flat, turns, budget } = this;
    const along = this.#along;
    const across = 1 - along;
    const sorted = this.#sorted;
    const [most, low, high] = [
      Math.max(flat[2 * a + along]!, flat[2 * b + along]!, flat[2 * c + along]!),
      Math.min(flat[2 * a + across]!, flat[2 * b + across]!, flat[2 * c + across]!),
      Math.max(flat[2 * a + across]!, flat[2 * b + across]!, flat[2 * c + across]!),
    ];
    const first = this.#firstFrom(Math.min(flat[2 * a + along]!, flat[2 * b + along]!, flat[2 * c + along]!));
    for (let at = first; at < sorted.length; at++) {
      const i = sorted[at]!;
      if (flat[2 * i + along]! > most) break;
      budget.left--;
      const side = flat[2 * i + across]!;
      if (side < low || side > high || turns[i]! > 0) continue;
      if (stands(flat, i, a, b, c)) return true;
    }
    budget.left -= this.#late.length;
    return this.#late.some((i) => !(turns[i]! > 0) && stands(flat, i, a, b, c));
  }

  /** Place in the order of the first at `value` or beyond. */
  #firstFrom(value: number): number {
    let [low, high] = [0, this.#sorted.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (this.flat[2 * this.#sorted[middle]! + this.#along]! < value) low = middle + 1;
      else high = middle;
    }
    return low;
  }

  #sweep(): void {
    this.#sorted = this.#inOrder([...new Set([...this.#sorted, ...this.#late])]);
    this.#late = [];
    this.#gone = 0;
  }

  #inOrder(corners: readonly number[]): number[] {
    const { flat } = this;
    const along = this.#along;
    this.budget.left -= 8 * corners.length;
    return corners
      .filter((i) => !(this.turns[i]! > 0))
      .sort((i, j) => flat[2 * i + along]! - flat[2 * j + along]! || i - j);
  }
}

function longerSide(flat: Float64Array): 0 | 1 {
  const least = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  const most = [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY];
  flat.forEach((value, i) => {
    least[i % 2] = Math.min(least[i % 2]!, value);
    most[i % 2] = Math.max(most[i % 2]!, value);
  });
  return most[1]! - least[1]! > most[0]! - least[0]! ? 1 : 0;
}

function stands(flat: Float64Array, i: number, a: number, b: number, c: number): boolean {
  if (sameSpot(flat, i, a) || sameSpot(flat, i, b) || sameSpot(flat, i, c)) return false;
  return turnOf(flat, a, b, i) >= 0 && turnOf(flat, b, c, i) >= 0 && turnOf(flat, c, a, i) >= 0;
}

const sameSpot = (flat: Float64Array, i: number, j: number): boolean =>
  flat[2 * i] === flat[2 * j] && flat[2 * i + 1] === flat[2 * j + 1];
