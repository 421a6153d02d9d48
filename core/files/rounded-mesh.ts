import type { Mesh } from '../solid/types.js';
import { weldMesh } from '../solid/weld.js';

/**
 * What a closed mesh needs after its positions were rounded to float32: vertices that fell together become one,
 * and the triangles that lost a side by it are left out.
 */
export function closeRoundedMesh(mesh: Mesh): Mesh {
  const welded = weldMesh(mesh);
  const from = welded.triangles;
  const kept = new Uint32Array(from.length);
  let n = 0;
  for (let i = 0; i < from.length; i += 3) {
    const a = from[i]!;
    const b = from[i + 1]!;
    const c = from[i + 2]!;
    if (a === b || b === c || c === a) continue;
    kept[n++] = a;
    kept[n++] = b;
    kept[n++] = c;
  }
  return n === from.length ? welded : { positions: welded.positions, triangles: kept.slice(0, n) };
}
