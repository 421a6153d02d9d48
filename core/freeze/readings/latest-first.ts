/**
 * Cells in falling order of their times, ties by rising cell: a radix sort of two passes over the numbers' bits, which
 * for floats that are not negative rise as they do (IEEE 754).
 * @param cells in rising order
 * @param times by cell, s, ≥ 0; infinite ones come first
 */
export function latestFirst(cells: Int32Array, times: Float32Array): Int32Array {
  const bits = new Uint32Array(times.buffer, times.byteOffset, times.length);
  let from: Int32Array = cells;
  let to: Int32Array = new Int32Array(cells.length);
  for (const shift of [0, 16]) {
    const starts = new Uint32Array(65_537);
    // The complement turns falling into rising; either pass keeps the order of equals.
    for (let n = 0; n < from.length; n++) {
      const at = ((~bits[from[n]!]! >>> shift) & 0xffff) + 1;
      starts[at] = starts[at]! + 1;
    }
    for (let b = 1; b <= 65_536; b++) starts[b] = starts[b]! + starts[b - 1]!;
    for (let n = 0; n < from.length; n++) {
      const digit = (~bits[from[n]!]! >>> shift) & 0xffff;
      to[starts[digit]!] = from[n]!;
      starts[digit] = starts[digit]! + 1;
    }
    [from, to] = [to, from === cells ? new Int32Array(cells.length) : from];
  }
  return from;
}
