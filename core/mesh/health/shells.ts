import type { Box, Mesh } from '../../solid/types.js';
import { type MeshEdges, triangleOf } from './mesh-edges.js';

/** One connected piece of surface. */
export interface MeshShell {
  readonly triangles: number;
  readonly box: Box;
  /** mm³: below 0 where its triangles face inwards, without meaning where it is open. */
  readonly volume: number;
  /** mm² */
  readonly area: number;
  /** Every edge has two of its triangles. */
  readonly closed: boolean;
}

/** @param shellOf shell of each triangle, 0 up */
export function measureShells(
  mesh: Mesh,
  edges: MeshEdges,
  shellOf: Int32Array,
  count: number,
): readonly MeshShell[] {
  const { positions: p, triangles: t } = mesh;
  const sizes = new Uint32Array(count);
  const volumes = new Float64Array(count);
  const areas = new Float64Array(count);
  const boxes = new Float64Array(6 * count).map((_, i) => (i % 6 < 3 ? Infinity : -Infinity));
  const origins = new Int32Array(count).fill(-1);
  for (let f = 0; f < t.length / 3; f++) {
    const s = shellOf[f]!;
    sizes[s]!++;
    const [a, b, c] = [3 * t[3 * f]!, 3 * t[3 * f + 1]!, 3 * t[3 * f + 2]!];
    if (origins[s]! < 0) origins[s] = a;
    for (const v of [a, b, c])
      for (let k = 0; k < 3; k++) {
        if (p[v + k]! < boxes[6 * s + k]!) boxes[6 * s + k] = p[v + k]!;
        if (p[v + k]! > boxes[6 * s + 3 + k]!) boxes[6 * s + 3 + k] = p[v + k]!;
      }
    // About one of its own corners, so that a far-off shell loses no digits.
    const o = origins[s]!;
    const [ax, ay, az] = [p[a]! - p[o]!, p[a + 1]! - p[o + 1]!, p[a + 2]! - p[o + 2]!];
    const [ux, uy, uz] = [p[b]! - p[a]!, p[b + 1]! - p[a + 1]!, p[b + 2]! - p[a + 2]!];
    const [vx, vy, vz] = [p[c]! - p[a]!, p[c + 1]! - p[a + 1]!, p[c + 2]! - p[a + 2]!];
    const [nx, ny, nz] = [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx];
    areas[s]! += Math.sqrt(nx * nx + ny * ny + nz * nz) / 2;
    volumes[s]! += (ax * nx + ay * ny + az * nz) / 6;
  }
  const isOpen = openShells(edges, shellOf, count);
  return Array.from({ length: count }, (_, s) => ({
    triangles: sizes[s]!,
    box: {
      min: [boxes[6 * s]!, boxes[6 * s + 1]!, boxes[6 * s + 2]!],
      max: [boxes[6 * s + 3]!, boxes[6 * s + 4]!, boxes[6 * s + 5]!],
    },
    volume: volumes[s]!,
    area: areas[s]!,
    closed: isOpen[s] === 0,
  }));
}

/** Shells that use an edge an odd number of times. */
function openShells(edges: MeshEdges, shellOf: Int32Array, count: number): Uint8Array {
  const isOpen = new Uint8Array(count);
  for (let e = 0; e < edges.count; e++) {
    const uses = edges.halves.subarray(edges.starts[e]!, edges.starts[e + 1]!);
    if (uses.length === 2) continue;
    const odd = new Set<number>();
    for (const half of uses) {
      const s = shellOf[triangleOf(half)]!;
      if (!odd.delete(s)) odd.add(s);
    }
    for (const s of odd) isOpen[s] = 1;
  }
  return isOpen;
}

export const longestSide = ({ min, max }: Box): number =>
  Math.max(max[0] - min[0], max[1] - min[1], max[2] - min[2]);

export const diagonalOf = ({ min, max }: Box): number =>
  Math.sqrt([0, 1, 2].reduce((sum, k) => sum + (max[k]! - min[k]!) ** 2, 0));

/** The middle of a box, mm. */
export const middleOfBox = ({ min, max }: Box): readonly [number, number, number] => [
  (min[0] + max[0]) / 2,
  (min[1] + max[1]) / 2,
  (min[2] + max[2]) / 2,
];
