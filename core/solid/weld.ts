import type { Mesh } from './types.js';

/**
 * One vertex for each distinct float32 position, as a reader of an STL file must see it (−0 counts as 0).
 * Triangles keep their order and direction; corners that fall together stay, so that they can be counted.
 */
export function weldMesh(mesh: Mesh): Mesh {
  const { positions: p, triangles: t } = mesh;
  const count = Math.floor(p.length / 3);
  let size = 16;
  while (size < 2 * count) size *= 2;
  const slots = new Int32Array(size).fill(-1);
  const bits = new Int32Array(3);
  const floats = new Float32Array(bits.buffer);
  const welded = new Int32Array(3 * count);
  const renamed = new Uint32Array(count);
  let used = 0;
  for (let v = 0; v < count; v++) {
    // + 0 makes −0 into 0
    floats[0] = p[3 * v]! + 0;
    floats[1] = p[3 * v + 1]! + 0;
    floats[2] = p[3 * v + 2]! + 0;
    const [x, y, z] = [bits[0]!, bits[1]!, bits[2]!];
    let h = Math.imul(x, 0x9e3779b1) ^ Math.imul(y, 0x85ebca6b) ^ Math.imul(z, 0xc2b2ae35);
    h ^= h >>> 15;
    h = Math.imul(h, 0x2c1b3c6d);
    h ^= h >>> 13;
    let slot = h & (size - 1);
    for (;;) {
      const at = slots[slot]!;
      if (at < 0) {
        slots[slot] = used;
        welded[3 * used] = x;
        welded[3 * used + 1] = y;
        welded[3 * used + 2] = z;
        renamed[v] = used++;
        break;
      }
      if (welded[3 * at] === x && welded[3 * at + 1] === y && welded[3 * at + 2] === z) {
        renamed[v] = at;
        break;
      }
      slot = (slot + 1) & (size - 1);
    }
  }
  const triangles = new Uint32Array(t.length);
  for (let i = 0; i < t.length; i++) triangles[i] = renamed[t[i]!]!;
  return { positions: new Float32Array(welded.buffer.slice(0, 12 * used)), triangles };
}
