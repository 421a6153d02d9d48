import type { Vec3 } from '../../solid/types.js';
import { PlaneFit } from './plane-fit.js';
import { after, normalOf, type Sheet, vertexOf } from './sheet.js';

/** Connected triangles that lie in one plane to within the file's rounding: what a tessellation is made of. */
export interface Facets {
  readonly count: number;
  /** Facet of each triangle; −1 for one without area that no facet took. */
  readonly facetOf: Int32Array;
  /** Triangles, facet by facet, and where each begins. */
  readonly order: Uint32Array;
  readonly starts: Uint32Array;
  /** Unit, outward, three numbers a facet. */
  readonly normals: Float64Array;
  /** mm² */
  readonly areas: Float64Array;
}

export const facetNormal = (facets: Facets, i: number): Vec3 => [
  facets.normals[3 * i]!,
  facets.normals[3 * i + 1]!,
  facets.normals[3 * i + 2]!,
];

/** Cosine that a triangle's own normal keeps to its facet's; slivers may turn further. */
const leastFacing = 0.995;

/** The fattest triangles come first, whose planes are best known. */
export function findFacets(sheet: Sheet): Facets {
  const { triangles, corners, positions: p, normals, areas, beyond, exact } = sheet;
  const facetOf = new Int32Array(triangles).fill(-1);
  const order = new Uint32Array(triangles);
  const starts: number[] = [0];
  const planes: number[] = [];
  const sizes: number[] = [];
  const heights = thicknesses(sheet);
  const seeds = Uint32Array.from({ length: triangles }, (_, f) => f).sort(
    (a, b) => heights[b]! - heights[a]! || a - b,
  );
  const marks = new Int32Array(p.length / 3).fill(-1);
  let filled = 0;
  let count = 0;
  for (const seed of seeds) {
    if (facetOf[seed] !== -1 || areas[seed] === 0) continue;
    const plane = new PlaneFit(vertexOf(sheet, corners[3 * seed]!), normalOf(sheet, seed));
    let refitAt = 6;
    let area = 0;
    const first = filled;
    const take = (f: number): void => {
      facetOf[f] = count;
      order[filled++] = f;
      area += areas[f]!;
      for (let h = 3 * f; h < 3 * f + 3; h++) {
        const v = corners[h]!;
        if (marks[v] === count) continue;
        marks[v] = count;
        plane.add(p[3 * v]!, p[3 * v + 1]!, p[3 * v + 2]!);
      }
      if (plane.count < refitAt) return;
      plane.refit();
      refitAt = 2 * plane.count;
    };
    take(seed);
    for (let at = first; at < filled; at++) {
      for (let h = 3 * order[at]!; h < 3 * order[at]! + 3; h++) {
        const f = beyond[h]!;
        if (f < 0 || facetOf[f] !== -1) continue;
        const far = 3 * farCorner(corners, f, corners[h]!, corners[after(h)]!);
        if (Math.abs(plane.height(p[far]!, p[far + 1]!, p[far + 2]!)) > exact) continue;
        const [x, y, z] = plane.normal;
        const facing = x * normals[3 * f]! + y * normals[3 * f + 1]! + z * normals[3 * f + 2]!;
        if (facing < leastFacing && heights[f]! > 40 * exact) continue;
        if (facing < 0.3 && areas[f]! > 0) continue;
        take(f);
      }
    }
    plane.refit();
    planes.push(...plane.normal);
    sizes.push(area);
    starts.push(filled);
    count++;
  }
  return {
    count,
    facetOf,
    order: order.subarray(0, filled),
    starts: Uint32Array.from(starts),
    normals: Float64Array.from(planes),
    areas: Float64Array.from(sizes),
  };
}

const farCorner = (corners: Uint32Array, f: number, a: number, b: number): number => {
  for (let h = 3 * f; h < 3 * f + 2; h++) if (corners[h] !== a && corners[h] !== b) return corners[h]!;
  return corners[3 * f + 2]!;
};

/** Height of each triangle over its longest side, mm. */
function thicknesses({ triangles, corners, positions: p, areas }: Sheet): Float64Array {
  const heights = new Float64Array(triangles);
  for (let f = 0; f < triangles; f++) {
    let longest = 0;
    for (let h = 3 * f; h < 3 * f + 3; h++) {
      const a = 3 * corners[h]!;
      const b = 3 * corners[after(h)]!;
      longest = Math.max(
        longest,
        (p[a]! - p[b]!) ** 2 + (p[a + 1]! - p[b + 1]!) ** 2 + (p[a + 2]! - p[b + 2]!) ** 2,
      );
    }
    heights[f] = longest > 0 ? (2 * areas[f]!) / Math.sqrt(longest) : 0;
  }
  return heights;
}
