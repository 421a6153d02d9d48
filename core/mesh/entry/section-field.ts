import { maths } from '../../maths/maths.js';
import { passColumns } from '../../solid/columns.js';
import { measureMesh } from '../../solid/mass-properties.js';
import { measureBounds } from '../../solid/mesh-bounds.js';
import type { Box, Mesh, Vec3 } from '../../solid/types.js';

/** How deep the metal lies everywhere inside a part. */
export interface SectionField {
  /** Side of a cell, mm. */
  readonly size: number;
  /** Corner of the first cell; there is a layer of empty cells all round. */
  readonly origin: Vec3;
  readonly counts: readonly [number, number, number];
  /** From the middle of a cell of metal to the nearest surface, mm, right to about half a cell; 0 outside. x runs fastest. */
  readonly depth: Float32Array;
}

/** Cells in the box: enough to see a section where it is thick, few enough to be done in a second. */
const [fewestCells, mostCells] = [3e5, 2.5e6];

/** Cells wanted across the mean section, 2 V/A. */
const cellsAcross = 5;

/** Distances to the surface on a grid of cubes, finer where the part is thin for its box. Any closed mesh. */
export function measureSections(mesh: Mesh): SectionField {
  const { min, max } = measureBounds(mesh) as Box;
  const { volume, area } = measureMesh(mesh);
  const sides = [max[0] - min[0], max[1] - min[1], max[2] - min[2]] as const;
  const box = sides[0] * sides[1] * sides[2];
  const wanted = (2 * volume) / area / cellsAcross;
  const size = Math.max(maths.cbrt(box / mostCells), Math.min(maths.cbrt(box / fewestCells), wanted));
  const counts = sides.map((side) => Math.ceil(side / size - 1e-6) + 2) as [number, number, number];
  const origin = min.map((m, k) => m - (counts[k]! * size - sides[k]!) / 2) as unknown as Vec3;
  return { size, origin, counts, depth: depthOf(fillInside(mesh, origin, counts, size), counts, size) };
}

/** 1 where the middle of a cell lies inside. */
function fillInside(
  mesh: Mesh,
  origin: Vec3,
  [nx, ny, nz]: readonly [number, number, number],
  size: number,
): Uint8Array {
  const middles = (count: number, from: number): Float64Array =>
    Float64Array.from({ length: count }, (_, i) => from + (i + 0.5) * size);
  const { starts, heights } = passColumns(mesh, middles(nx, origin[0]), middles(ny, origin[1]));
  const filled = new Uint8Array(nx * ny * nz);
  for (let column = 0; column < nx * ny; column++)
    for (let n = starts[column]!; n + 1 < starts[column + 1]!; n += 2) {
      const from = Math.max(0, Math.ceil((heights[n]! - origin[2]) / size - 0.5));
      const to = Math.min(nz - 1, Math.floor((heights[n + 1]! - origin[2]) / size - 0.5));
      for (let k = from; k <= to; k++) filled[column + nx * ny * k] = 1;
    }
  return filled;
}

/**
 * Distance of every filled cell from the nearest empty one, less the half cell to its face: exact squared distances by
 * lower envelopes of parabolas, axis by axis (P. Felzenszwalb and D. Huttenlocher, 2012).
 */
function depthOf(filled: Uint8Array, counts: readonly [number, number, number], size: number): Float32Array {
  const squared = Float32Array.from(filled, (f) => (f ? far : 0));
  const strides = [1, counts[0], counts[0] * counts[1]] as const;
  const longest = Math.max(...counts);
  const line = new Float64Array(longest);
  const hull = new Int32Array(longest);
  const from = new Float64Array(longest + 1);
  for (let axis = 0; axis < 3; axis++) {
    const [count, stride] = [counts[axis]!, strides[axis]!];
    const [a, b] = [(axis + 1) % 3, (axis + 2) % 3];
    for (let j = 0; j < counts[b]!; j++)
      for (let i = 0; i < counts[a]!; i++)
        passLine(squared, i * strides[a]! + j * strides[b]!, stride, count, line, hull, from);
  }
  return squared.map((s) => (s > 0 ? (Math.sqrt(s) - 0.5) * size : 0));
}

const far = 1e12;

function passLine(
  squared: Float32Array,
  start: number,
  stride: number,
  count: number,
  line: Float64Array,
  hull: Int32Array,
  from: Float64Array,
): void {
  let some = false;
  for (let i = 0; i < count; i++) {
    line[i] = squared[start + i * stride]!;
    some ||= line[i]! > 0;
  }
  if (!some) return;
  let top = -1;
  for (let q = 0; q < count; q++) {
    if (line[q]! >= far) continue;
    let cut = Number.NEGATIVE_INFINITY;
    while (top >= 0) {
      const v = hull[top]!;
      cut = (line[q]! + q * q - line[v]! - v * v) / (2 * (q - v));
      if (cut > from[top]!) break;
      top--;
      cut = Number.NEGATIVE_INFINITY;
    }
    hull[++top] = q;
    from[top] = cut;
  }
  if (top < 0) return;
  let k = 0;
  for (let q = 0; q < count; q++) {
    while (k < top && from[k + 1]! < q) k++;
    const v = hull[k]!;
    squared[start + q * stride] = (q - v) * (q - v) + line[v]!;
  }
}

/** The deepest metal, mm, and where it is. */
export function deepest(field: SectionField): { readonly depth: number; readonly at: Vec3 } {
  let best = 0;
  for (let c = 1; c < field.depth.length; c++) if (field.depth[c]! > field.depth[best]!) best = c;
  return { depth: field.depth[best]!, at: middleOf(field, best) };
}

export function middleOf({ origin, size, counts }: SectionField, cell: number): Vec3 {
  const i = cell % counts[0];
  const j = Math.floor(cell / counts[0]) % counts[1];
  const k = Math.floor(cell / (counts[0] * counts[1]));
  return [origin[0] + (i + 0.5) * size, origin[1] + (j + 0.5) * size, origin[2] + (k + 0.5) * size];
}

/** Middle of the metal, each cell weighed by the square of its depth, so that heavy sections count: mm. */
export function heavyMiddle(field: SectionField): Vec3 {
  const { depth, counts } = field;
  let [sum, x, y, z] = [0, 0, 0, 0];
  for (let k = 0, c = 0; k < counts[2]; k++)
    for (let j = 0; j < counts[1]; j++)
      for (let i = 0; i < counts[0]; i++, c++) {
        const weight = depth[c]! * depth[c]!;
        if (weight === 0) continue;
        sum += weight;
        x += weight * i;
        y += weight * j;
        z += weight * k;
      }
  const { origin, size } = field;
  if (sum === 0) return middleOf(field, Math.floor(depth.length / 2));
  return [
    origin[0] + (x / sum + 0.5) * size,
    origin[1] + (y / sum + 0.5) * size,
    origin[2] + (z / sum + 0.5) * size,
  ];
}
