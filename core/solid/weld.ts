import { PositionTable } from './position-table.js';
import type { Mesh } from './types.js';

/**
 * One vertex for each distinct float32 position, as a reader of an STL file must see it (−0 counts as 0).
 * Triangles keep their order and direction; corners that fall together stay, so that they can be counted.
 */
export function weldMesh({ positions: p, triangles: t }: Mesh): Mesh {
  const count = Math.floor(p.length / 3);
  const table = new PositionTable(count);
  const renamed = new Uint32Array(count);
  for (let v = 0; v < count; v++) renamed[v] = table.add(p[3 * v]!, p[3 * v + 1]!, p[3 * v + 2]!);
  const triangles = new Uint32Array(t.length);
  for (let i = 0; i < t.length; i++) triangles[i] = renamed[t[i]!]!;
  return { positions: table.positions(), triangles };
}
