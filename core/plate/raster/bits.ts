/** Rows of bits, 32 a word; the lowest bit of a word is its leftmost column. */
export interface BitMap {
  readonly cols: number;
  readonly rows: number;
  readonly stride: number;
  readonly words: Uint32Array;
}

export function bitMap(cols: number, rows: number): BitMap {
  const stride = Math.max(1, (cols + 31) >>> 5);
  return { cols, rows, stride, words: new Uint32Array(stride * rows) };
}

/** Sets columns `from` to `to`, both included, of the row whose first word is `row`. */
export function setRun(words: Uint32Array, row: number, from: number, to: number): void {
  const first = row + (from >>> 5);
  const last = row + (to >>> 5);
  const head = (0xffffffff << (from & 31)) >>> 0;
  const tail = 0xffffffff >>> (31 - (to & 31));
  if (first === last) {
    words[first] = words[first]! | (head & tail);
    return;
  }
  words[first] = words[first]! | head;
  for (let i = first + 1; i < last; i++) words[i] = 0xffffffff;
  words[last] = words[last]! | tail;
}

/** Sets in `into` every bit of `from` moved by dx columns and dy rows; what falls outside is left out. */
export function orMoved(into: BitMap, from: BitMap, dx: number, dy: number): void {
  const firstRow = Math.max(0, -dy);
  const lastRow = Math.min(from.rows, into.rows - dy);
  const whole = dx >> 5;
  const left = dx & 31;
  // Words of the target that the moved row reaches.
  const first = Math.max(0, whole);
  const last = Math.min(into.stride - 1, whole + from.stride - (left === 0 ? 1 : 0));
  if (first > last) return;
  const a = from.words;
  const b = into.words;
  const right = 32 - left;
  // The words that are whole in the source; the end of its last one may go over into one more.
  const end = Math.min(last, whole + from.stride - 1);
  for (let r = firstRow; r < lastRow; r++) {
    // Word `at` of the target is word `source + at` of the source, with the end of the one before.
    const source = r * from.stride - whole;
    const target = (r + dy) * into.stride;
    if (left === 0) {
      for (let at = first; at <= end; at++) b[target + at] = b[target + at]! | a[source + at]!;
      continue;
    }
    let over = first > whole ? a[source + first - 1]! >>> right : 0;
    for (let at = first; at <= end; at++) {
      const word = a[source + at]!;
      b[target + at] = b[target + at]! | (word << left) | over;
      over = word >>> right;
    }
    if (end < last) b[target + last] = b[target + last]! | over;
  }
}

export const isSet = ({ words, stride }: BitMap, col: number, row: number): boolean =>
  ((words[row * stride + (col >>> 5)]! >>> (col & 31)) & 1) === 1;

/** The first column of the row that is not set, or −1. Columns from `cols` on must be set. */
export function firstFree({ words, stride }: BitMap, row: number): number {
  const start = row * stride;
  for (let w = 0; w < stride; w++) {
    const free = ~words[start + w]!;
    if (free !== 0) return 32 * w + 31 - Math.clz32(free & -free);
  }
  return -1;
}

/** The last column of the row that is not set, or −1. Columns from `cols` on must be set. */
export function lastFree({ words, stride }: BitMap, row: number): number {
  const start = row * stride;
  for (let w = stride - 1; w >= 0; w--) {
    const free = ~words[start + w]!;
    if (free !== 0) return 32 * w + 31 - Math.clz32(free);
  }
  return -1;
}
