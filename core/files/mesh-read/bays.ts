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
    const key = (i: number): number => this.flat[2 * i + this.#along]!;
    const most = Math.max(key(a), key(b), key(c));
    const sorted = this.#sorted;
    let at = this.#firstFrom(Math.min(key(a), key(b), key(c)));
    for (; at < sorted.length && key(sorted[at]!) <= most; at++)
      if (this.#stands(sorted[at]!, a, b, c)) return true;
    return this.#late.some((i) => this.#stands(i, a, b, c));
  }

  #stands(i: number, a: number, b: number, c: number): boolean {
    this.budget.left--;
    return !(this.turns[i]! > 0) && stands(this.flat, i, a, b, c);
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
  if (i === a || i === b || i === c) return false;
  const [x, y] = [flat[2 * i]!, flat[2 * i + 1]!];
  const [ax, ay] = [flat[2 * a]!, flat[2 * a + 1]!];
  const [bx, by] = [flat[2 * b]!, flat[2 * b + 1]!];
  const [cx, cy] = [flat[2 * c]!, flat[2 * c + 1]!];
  if (x < Math.min(ax, bx, cx) || x > Math.max(ax, bx, cx)) return false;
  if (y < Math.min(ay, by, cy) || y > Math.max(ay, by, cy)) return false;
  if ((x === ax && y === ay) || (x === bx && y === by) || (x === cx && y === cy)) return false;
  return turnOf(flat, a, b, i) >= 0 && turnOf(flat, b, c, i) >= 0 && turnOf(flat, c, a, i) >= 0;
}
