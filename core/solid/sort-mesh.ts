import type { Mesh } from './types.js';

/**
 * The same mesh in one order: vertices by z, then y, then x, without the unused; each triangle from its least
 * vertex; triangles by their vertices. Equal surfaces give equal bytes, whatever way they were made.
 * Expects welded positions and a manifold mesh (a directed edge used once).
 */
export function sortMesh({ positions: p, triangles: t }: Mesh): Mesh {
  const used = sortPlaces(listUsed(t, p.length / 3), p);
  const renamed = new Uint32Array(p.length / 3);
  const positions = new Float32Array(3 * used.length);
  for (let i = 0; i < used.length; i++) {
    const v = 3 * used[i]!;
    renamed[used[i]!] = i;
    positions[3 * i] = p[v]!;
    positions[3 * i + 1] = p[v + 1]!;
    positions[3 * i + 2] = p[v + 2]!;
  }
  return { positions, triangles: sortTriangles(t, renamed, used.length) };
}

function listUsed(t: Uint32Array, count: number): Uint32Array {
  const seen = new Uint8Array(count);
  let used = 0;
  for (let i = 0; i < t.length; i++) {
    if (seen[t[i]!] === 0) used++;
    seen[t[i]!] = 1;
  }
  const list = new Uint32Array(used);
  for (let v = 0, i = 0; v < count; v++) if (seen[v] === 1) list[i++] = v;
  return list;
}

/** Vertices by z, then y, then x: by one digit after another of x, y and z, the least first. */
function sortPlaces(vertices: Uint32Array, p: Float32Array): Uint32Array {
  const bits = new Uint32Array(p.buffer, p.byteOffset, p.length);
  let from = vertices;
  let to: Uint32Array = new Uint32Array(vertices.length);
  const keys = new Uint32Array(vertices.length);
  const place = new Uint32Array(digits);
  for (const axis of [0, 1, 2]) {
    for (let shift = 0; shift < 32; shift += digitBits) {
      place.fill(0);
      for (let i = 0; i < from.length; i++) {
        const word = bits[3 * from[i]! + axis]!;
        // Bits of floats rise with their numbers once the sign is turned, and all bits of those below −0, which is 0.
        const key = ((word > 0x80000000 ? ~word : word | 0x80000000) >>> shift) & (digits - 1);
        keys[i] = key;
        place[key]!++;
      }
      for (let digit = 0, sum = 0; digit < digits; digit++) {
        const here = place[digit]!;
        place[digit] = sum;
        sum += here;
      }
      for (let i = 0; i < from.length; i++) to[place[keys[i]!]!++] = from[i]!;
      [from, to] = [to, from];
    }
  }
  return from;
}

const digitBits = 11;
const digits = 1 << digitBits;

/** Counting sort by the least vertex, then insertion by the others within its few triangles. */
function sortTriangles(t: Uint32Array, renamed: Uint32Array, vertices: number): Uint32Array {
  const turned = new Uint32Array(t.length);
  const end = new Uint32Array(vertices + 1);
  for (let f = 0; f < t.length; f += 3) {
    const a = renamed[t[f]!]!;
    const b = renamed[t[f + 1]!]!;
    const c = renamed[t[f + 2]!]!;
    const first = a < b && a < c ? 0 : b < c ? 1 : 2;
    turned[f] = first === 0 ? a : first === 1 ? b : c;
    turned[f + 1] = first === 0 ? b : first === 1 ? c : a;
    turned[f + 2] = first === 0 ? c : first === 1 ? a : b;
    end[turned[f]! + 1]!++;
  }
  for (let v = 0; v < vertices; v++) end[v + 1]! += end[v]!;
  const start = end.slice();
  const sorted = new Uint32Array(t.length);
  for (let f = 0; f < t.length; f += 3) {
    const a = turned[f]!;
    const b = turned[f + 1]!;
    const c = turned[f + 2]!;
    let place = 3 * end[a]!++;
    while (place > 3 * start[a]! && isAfter(sorted, place - 3, b, c)) {
      sorted.copyWithin(place, place - 3, place);
      place -= 3;
    }
    sorted[place] = a;
    sorted[place + 1] = b;
    sorted[place + 2] = c;
  }
  return sorted;
}

const isAfter = (sorted: Uint32Array, at: number, b: number, c: number): boolean =>
  sorted[at + 1]! > b || (sorted[at + 1] === b && sorted[at + 2]! > c);
