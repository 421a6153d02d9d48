import { maths } from '../maths/maths.js';
import { ToleranceError } from '../solid/errors.js';
import type { Vec3 } from '../solid/types.js';
import { boxDistance, type Field } from './field.js';

/** A first mesh of a field's level surface: corners exactly on it, along the edges of a grid. */
export interface FirstMesh {
  /** x, y, z a vertex, mm. */
  readonly positions: number[];
  /** Outward unit normals. */
  readonly normals: number[];
  readonly triangles: number[];
}

const blockSize = 4;
/** Far more than any piece of hardware needs. */
const mostNodes = 2 ** 31;

/**
 * The surface where the field is `level`, by marching tetrahedra, six to a cubic cell of side `cell` mm: closed and
 * manifold whatever the field. Blocks of cells further from the surface than their own size are passed over.
 *
 * @throws RangeError for a grid too fine, or a surface that is not within the field's bounds
 */
export function marchField(field: Field, level: number, cell: number): FirstMesh {
  const reach = level + 1.37 * cell;
  const { min, max } = field.bounds;
  const origin = min.map((v) => v - reach);
  const counts = [0, 1, 2].map(
    (k) => blockSize * Math.ceil((max[k]! - min[k]! + 2 * reach) / (cell * blockSize)),
  );
  const [nx, ny, nz] = counts as [number, number, number];
  const strideY = nx + 1;
  const strideZ = strideY * (ny + 1);
  if (!(strideZ * (nz + 1) < mostNodes))
    throw new ToleranceError(`a grid of ${cell} mm over ${nx} × ${ny} × ${nz} cells is too fine`);
  const gradient = new Float64Array(3);
  const at = (i: number, j: number, k: number): number =>
    field.distance(origin[0]! + i * cell, origin[1]! + j * cell, origin[2]! + k * cell, gradient) - level;

  const values = new Map<number, number>();
  const valueAt = (i: number, j: number, k: number): number => {
    const node = i + j * strideY + k * strideZ;
    let value = values.get(node);
    if (value === undefined) {
      value = at(i, j, k);
      values.set(node, value);
    }
    return value;
  };
  const mesh: FirstMesh = { positions: [], normals: [], triangles: [] };
  const crossings = new Map<number, number>();
  const steps = [1, strideY, strideZ] as const;

  /** The vertex on the grid's edge from a node to the corner `bits` away from it. */
  const vertexOn = (low: number, bits: number, a: number, b: number): number => {
    const key = low * 8 + bits;
    const known = crossings.get(key);
    if (known !== undefined) return known;
    const k = Math.floor(low / strideZ);
    const j = Math.floor((low - k * strideZ) / strideY);
    const i = low - k * strideZ - j * strideY;
    const from: Vec3 = [origin[0]! + i * cell, origin[1]! + j * cell, origin[2]! + k * cell];
    const by: Vec3 = [bits & 1 ? cell : 0, bits & 2 ? cell : 0, bits & 4 ? cell : 0];
    const t = findCrossing(field, level, from, by, a, b, gradient);
    const vertex = mesh.positions.length / 3;
    mesh.positions.push(from[0] + t * by[0], from[1] + t * by[1], from[2] + t * by[2]);
    mesh.normals.push(gradient[0]!, gradient[1]!, gradient[2]!);
    crossings.set(key, vertex);
    return vertex;
  };

  const corner = new Float64Array(8);
  const marchBlock = (bi: number, bj: number, bk: number): void => {
    for (let k = bk; k < bk + blockSize; k++)
      for (let j = bj; j < bj + blockSize; j++)
        for (let i = bi; i < bi + blockSize; i++) {
          let inside = 0;
          for (let c = 0; c < 8; c++) {
            corner[c] = valueAt(i + (c & 1), j + ((c >> 1) & 1), k + (c >> 2));
            if (corner[c]! <= 0) inside++;
          }
          if (inside === 0 || inside === 8) continue;
          const node = i + j * strideY + k * strideZ;
          for (const tetra of tetrahedra) {
            let mask = 0;
            for (let n = 0; n < 4; n++) if (corner[tetra[n]!]! <= 0) mask |= 1 << n;
            for (const [p, q] of cases[mask]!) {
              // The corners of a tetrahedron each hold the bits of those before them.
              const [a, b] = [tetra[p]!, tetra[q]!];
              const low = a & b;
              const base =
                node + (low & 1 ? steps[0] : 0) + (low & 2 ? steps[1] : 0) + (low & 4 ? steps[2] : 0);
              mesh.triangles.push(vertexOn(base, a ^ b, corner[low]!, corner[low ^ (a ^ b)]!));
            }
          }
        }
  };
  const half = (Math.sqrt(3) / 2) * blockSize * cell * 1.01;
  const mayHold = (bi: number, bj: number, bk: number): boolean => {
    const m = blockSize / 2;
    const x = origin[0]! + (bi + m) * cell;
    const y = origin[1]! + (bj + m) * cell;
    const z = origin[2]! + (bk + m) * cell;
    if (boxDistance(field.bounds, x, y, z) - level > half) return false;
    return Math.abs(field.distance(x, y, z, gradient) - level) <= half;
  };
  /** Whether the surface goes out of a block through the side across `axis` at its lower (0) or upper (1) end. */
  const leaves = (at: readonly [number, number, number], axis: number, end: number): boolean => {
    const [u, v] = [(axis + 1) % 3, (axis + 2) % 3];
    const node: [number, number, number] = [...at];
    node[axis] = at[axis]! + end * blockSize;
    let inside = 0;
    for (let b = 0; b <= blockSize; b++)
      for (let a = 0; a <= blockSize; a++) {
        node[u] = at[u]! + a;
        node[v] = at[v]! + b;
        if (valueAt(...node) <= 0) inside++;
      }
    return inside > 0 && inside < (blockSize + 1) ** 2;
  };

  // Blocks that may hold the surface, and after them whatever block it goes on into: a field that is a little more
  // than a distance, as between two bodies blended, would else leave a hole.
  const sizes = [nx, ny, nz] as const;
  const seen = new Uint8Array((nx * ny * nz) / maths.pow(blockSize, 3));
  const waiting: [number, number, number][] = [];
  const visit = (block: readonly [number, number, number]): void => {
    const [i, j, k] = block.map((v) => v / blockSize) as [number, number, number];
    const number = i + (nx / blockSize) * (j + (ny / blockSize) * k);
    if (seen[number] === 1) return;
    seen[number] = 1;
    waiting.push([...block]);
  };
  for (let bk = 0; bk < nz; bk += blockSize)
    for (let bj = 0; bj < ny; bj += blockSize)
      for (let bi = 0; bi < nx; bi += blockSize) {
        if (mayHold(bi, bj, bk)) visit([bi, bj, bk]);
      }
  for (let n = 0; n < waiting.length; n++) {
    const block = waiting[n]!;
    marchBlock(...block);
    for (let axis = 0; axis < 3; axis++)
      for (const end of [0, 1]) {
        if (!leaves(block, axis, end)) continue;
        const next: [number, number, number] = [...block];
        next[axis]! += end === 0 ? -blockSize : blockSize;
        if (next[axis]! < 0 || next[axis]! >= sizes[axis]!)
          throw new RangeError('the surface goes out of the bounds that its field states');
        visit(next);
      }
  }
  return mesh;
}

/** Share of the way from a point to the crossing, by the Illinois rule; leaves the gradient there. */
function findCrossing(
  field: Field,
  level: number,
  from: Vec3,
  by: Vec3,
  atFrom: number,
  atTo: number,
  gradient: Float64Array,
): number {
  let [t0, f0, t1, f1] = [0, atFrom, 1, atTo];
  let t = 0.5;
  let side = 0;
  for (let i = 0; i < 60; i++) {
    t = f1 === f0 ? 0.5 : (t0 * f1 - t1 * f0) / (f1 - f0);
    const f = field.distance(from[0] + t * by[0], from[1] + t * by[1], from[2] + t * by[2], gradient) - level;
    if (Math.abs(f) < 1e-9 || t1 - t0 < 1e-12) break;
    if (f <= 0 === atFrom <= 0) {
      [t0, f0] = [t, f];
      if (side === 1) f1 /= 2;
      side = 1;
    } else {
      [t1, f1] = [t, f];
      if (side === -1) f0 /= 2;
      side = -1;
    }
  }
  return t;
}

/** The six tetrahedra of a cell round its long diagonal, corners named by bits x, y, z; all of one hand. */
const tetrahedra: readonly (readonly [number, number, number, number])[] = [
  [0, 1, 3, 7],
  [0, 2, 6, 7],
  [0, 4, 5, 7],
  [0, 3, 2, 7],
  [0, 6, 4, 7],
  [0, 5, 1, 7],
];

/** For each set of inside corners, the tetrahedron's edges that the triangles' corners lie on, three a triangle. */
const cases: readonly (readonly (readonly [number, number])[])[] = Array.from({ length: 16 }, (_, mask) => {
  const inside = [0, 1, 2, 3].filter((n) => mask & (1 << n));
  const outside = [0, 1, 2, 3].filter((n) => !(mask & (1 << n)));
  const order = [...inside, ...outside];
  let swaps = 0;
  for (let i = 0; i < 4; i++) for (let j = i + 1; j < 4; j++) if (order[i]! > order[j]!) swaps++;
  const [a, b, c, d] = order as [number, number, number, number];
  const triangles: [number, number][][] =
    inside.length === 1
      ? [
          [
            [a, b],
            [a, c],
            [a, d],
          ],
        ]
      : inside.length === 2
        ? [
            [
              [a, c],
              [a, d],
              [b, d],
            ],
            [
              [a, c],
              [b, d],
              [b, c],
            ],
          ]
        : inside.length === 3
          ? [
              [
                [d, a],
                [d, b],
                [d, c],
              ],
            ]
          : [];
  return triangles.flatMap((t) => (swaps % 2 === 0 ? t : [t[0]!, t[2]!, t[1]!]));
});
