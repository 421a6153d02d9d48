/** For each triangle the first one with the same three corners, whichever way round; itself where it is the first. */
export function firstAlike(t: Uint32Array): Uint32Array {
  const count = t.length / 3;
  let size = 16;
  while (size < 2 * count) size *= 2;
  const slots = new Int32Array(size).fill(-1);
  const first = new Uint32Array(count);
  for (let f = 0; f < count; f++) {
    const [low, middle, high] = sorted(t, f);
    let h = Math.imul(low, 0x9e3779b1) ^ Math.imul(middle, 0x85ebca6b) ^ Math.imul(high, 0xc2b2ae35);
    h ^= h >>> 15;
    h = Math.imul(h, 0x2c1b3c6d);
    let slot = (h ^ (h >>> 13)) & (size - 1);
    for (;;) {
      const known = slots[slot]!;
      if (known < 0) {
        slots[slot] = f;
        first[f] = f;
        break;
      }
      const [a, b, c] = sorted(t, known);
      if (a === low && b === middle && c === high) {
        first[f] = known;
        break;
      }
      slot = (slot + 1) & (size - 1);
    }
  }
  return first;
}

function sorted(t: Uint32Array, f: number): readonly [number, number, number] {
  const [a, b, c] = [t[3 * f]!, t[3 * f + 1]!, t[3 * f + 2]!];
  const low = Math.min(a, b, c);
  const high = Math.max(a, b, c);
  return [low, a + b + c - low - high, high];
}

/** The triangles that are kept. */
export function keepTriangles(t: Uint32Array, isKept: (triangle: number) => boolean): Uint32Array {
  const kept = new Uint32Array(t.length);
  let size = 0;
  for (let f = 0; f < t.length / 3; f++)
    if (isKept(f)) {
      kept[size] = t[3 * f]!;
      kept[size + 1] = t[3 * f + 1]!;
      kept[size + 2] = t[3 * f + 2]!;
      size += 3;
    }
  return kept.slice(0, size);
}
