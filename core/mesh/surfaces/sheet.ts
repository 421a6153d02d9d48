import { faceVectors } from '../../solid/face-vectors.js';
import type { Mesh, Vec3 } from '../../solid/types.js';
import { weldMesh } from '../../solid/weld.js';

/** A mesh with what the searches ask of it again and again. Triangles keep their numbers. */
export interface Sheet {
  readonly positions: Float32Array;
  /** Three corners a triangle, equal positions welded. */
  readonly corners: Uint32Array;
  readonly triangles: number;
  /** Unit, three numbers a triangle; nought where it has no area. */
  readonly normals: Float64Array;
  /** mm² */
  readonly areas: Float64Array;
  /** Triangle beyond each edge (from corner h to the next), or −1. */
  readonly beyond: Int32Array;
  /** Length of the box's diagonal, mm. */
  readonly size: number;
  /** How far two corners of one exact surface may stray from it by the file's rounding, mm. */
  readonly exact: number;
  /** mm² */
  readonly area: number;
}

/** The vertex after `h` in its triangle. */
export const after = (h: number): number => (h % 3 === 2 ? h - 2 : h + 1);

export const vertexOf = (sheet: Sheet, v: number): Vec3 => [
  sheet.positions[3 * v]!,
  sheet.positions[3 * v + 1]!,
  sheet.positions[3 * v + 2]!,
];

export const normalOf = (sheet: Sheet, f: number): Vec3 => [
  sheet.normals[3 * f]!,
  sheet.normals[3 * f + 1]!,
  sheet.normals[3 * f + 2]!,
];

/** The corners of triangles, each once, three numbers each. */
export function cornersOf({ corners, positions: p }: Sheet, triangles: readonly number[]): Float64Array {
  const met = new Set<number>();
  for (const f of triangles) for (let h = 3 * f; h < 3 * f + 3; h++) met.add(corners[h]!);
  const points = new Float64Array(3 * met.size);
  let to = 0;
  for (const v of met) {
    points[to++] = p[3 * v]!;
    points[to++] = p[3 * v + 1]!;
    points[to++] = p[3 * v + 2]!;
  }
  return points;
}

export function prepareSheet(mesh: Mesh): Sheet {
  const { positions, triangles: corners } = weldMesh(mesh);
  const triangles = corners.length / 3;
  const normals = faceVectors({ positions, triangles: corners });
  const areas = new Float64Array(triangles);
  let area = 0;
  for (let f = 0; f < triangles; f++) {
    const [x, y, z] = [normals[3 * f]!, normals[3 * f + 1]!, normals[3 * f + 2]!];
    const double = Math.sqrt(x * x + y * y + z * z);
    areas[f] = double / 2;
    area += double / 2;
    if (!(double > 0)) {
      normals.fill(0, 3 * f, 3 * f + 3);
      continue;
    }
    normals[3 * f] = x / double;
    normals[3 * f + 1] = y / double;
    normals[3 * f + 2] = z / double;
  }
  const low = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  let reach = 0;
  for (let i = 0; i < positions.length; i++) {
    const v = positions[i]!;
    const k = i % 3;
    if (v < low[k]!) low[k] = v;
    if (v > high[k]!) high[k] = v;
    reach = Math.max(reach, Math.abs(v));
  }
  const size =
    positions.length === 0 ? 0 : Math.sqrt([0, 1, 2].reduce((s, k) => s + (high[k]! - low[k]!) ** 2, 0));
  // Single precision keeps 6·10⁻⁸ of the reach; files in decimals and booleans lose a little more.
  const exact = Math.max(1e-6 * reach, Math.min(2e-4, 1e-5 * size));
  const vertices = positions.length / 3;
  return {
    positions,
    corners,
    triangles,
    normals,
    areas,
    beyond: pairEdges(corners, vertices),
    size,
    exact,
    area,
  };
}

/** The triangle beyond each edge: edges are sorted by their lower vertex, then looked for among the few that share it. */
function pairEdges(corners: Uint32Array, vertices: number): Int32Array {
  const beyond = new Int32Array(corners.length).fill(-1);
  const starts = new Uint32Array(vertices + 1);
  for (let h = 0; h < corners.length; h++) starts[Math.min(corners[h]!, corners[after(h)]!) + 1]!++;
  for (let v = 0; v < vertices; v++) starts[v + 1]! += starts[v]!;
  const fill = starts.slice(0, vertices);
  const halves = new Uint32Array(corners.length);
  for (let h = 0; h < corners.length; h++) halves[fill[Math.min(corners[h]!, corners[after(h)]!)]!++] = h;
  for (let v = 0; v < vertices; v++) {
    // Where a file's fan makes one vertex serve everything, looking would take forever; no sound mesh does that.
    const end = Math.min(starts[v + 1]!, starts[v]! + 4000);
    for (let i = starts[v]!; i < end; i++) {
      const h = halves[i]!;
      if (beyond[h] !== -1) continue;
      for (let j = i + 1; j < end; j++) {
        const g = halves[j]!;
        if (beyond[g] !== -1 || corners[g] !== corners[after(h)] || corners[after(g)] !== corners[h])
          continue;
        beyond[h] = Math.floor(g / 3);
        beyond[g] = Math.floor(h / 3);
        break;
      }
    }
  }
  return beyond;
}
