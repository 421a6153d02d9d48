import { maths } from '../../maths/maths.js';
import { dot } from '../../shape/vector.js';
import { type Facets, facetNormal } from './facets.js';
import { after, cornersOf, type Sheet } from './sheet.js';
import { smoothCosine } from './smooth.js';
import type { PlaneCandidate } from './surface.js';

/** A neighbour that is so many times narrower is a strip of a rounding, not of the same curve. */
const narrower = 2.5;
/** Share of the border that bends gently, above which a face must be larger, as a share of all area: an uneven facet may look like it. */
const mostGentle = 0.4;
const leastGentle = 3e-3;
/** Share of the border, from which a neighbour counts. */
const leastBorder = 0.05;

/**
 * Facets that are faces of the part and no pieces of a tessellated curve: those of a curve bend gently into others of
 * their width on both sides, or bend so into one that does.
 *
 * @param taken triangles that belong to a surface already
 */
export function findFlats(sheet: Sheet, facets: Facets, taken: Uint8Array): PlaneCandidate[] {
  const { alike, gentle } = neighboursOf(sheet, facets);
  const isCurve = (i: number): boolean => alike[i]!.length > 1;
  const found: PlaneCandidate[] = [];
  const least = leastArea(sheet);
  for (let i = 0; i < facets.count; i++) {
    if (facets.areas[i]! < least || taken[facets.order[facets.starts[i]!]!] === 1) continue;
    if (isCurve(i) || alike[i]!.some(isCurve)) continue;
    if (gentle[i]! > mostGentle && facets.areas[i]! < leastGentle * sheet.area) continue;
    const triangles = Array.from(facets.order.subarray(facets.starts[i]!, facets.starts[i + 1]!));
    found.push({
      kind: 'plane',
      triangles,
      normal: facetNormal(facets, i),
      points: cornersOf(sheet, triangles),
    });
  }
  return found;
}

/** Smaller flats are left to the skin, mm². */
const leastArea = (sheet: Sheet): number => Math.max(2e-4 * sheet.area, Math.min(1, 2e-3 * sheet.area));

interface Neighbours {
  /** Facets that each one bends gently into and that are not much narrower. */
  readonly alike: readonly (readonly number[])[];
  /** Share of the border that bends gently into whatever. */
  readonly gentle: Float64Array;
}

function neighboursOf(sheet: Sheet, facets: Facets): Neighbours {
  const { triangles, corners, positions: p, beyond } = sheet;
  const border = new Float64Array(facets.count);
  const common: Map<number, number>[] = Array.from({ length: facets.count }, () => new Map());
  for (let h = 0; h < 3 * triangles; h++) {
    const facet = facets.facetOf[Math.floor(h / 3)]!;
    const other = beyond[h]! < 0 ? -1 : facets.facetOf[beyond[h]!]!;
    if (facet < 0 || facet === other) continue;
    const a = 3 * corners[h]!;
    const b = 3 * corners[after(h)]!;
    const edge = Math.sqrt(
      (p[a]! - p[b]!) ** 2 + (p[a + 1]! - p[b + 1]!) ** 2 + (p[a + 2]! - p[b + 2]!) ** 2,
    );
    border[facet]! += edge;
    if (other >= 0) common[facet]!.set(other, (common[facet]!.get(other) ?? 0) + edge);
  }
  const width = (i: number): number => (2 * facets.areas[i]!) / border[i]!;
  // Facets that would leave a curve this far out of true are meant as flats, whatever the bend.
  const mostSagitta = Math.max(0.2, 3e-3 * sheet.size);
  const gentle = new Float64Array(facets.count);
  const alike = common.map((neighbours, i) =>
    [...neighbours]
      .filter(([other, edge]) => {
        const cosine = dot(facetNormal(facets, i), facetNormal(facets, other));
        if (cosine < smoothCosine) return false;
        gentle[i]! += edge / border[i]!;
        if (edge < leastBorder * border[i]! || width(other) * narrower < width(i)) return false;
        const bend = maths.acos(Math.min(1, cosine));
        return (Math.min(width(i), width(other)) * bend) / 8 < mostSagitta;
      })
      .map(([other]) => other),
  );
  return { alike, gentle };
}
