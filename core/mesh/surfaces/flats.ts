import { dot } from '../../shape/vector.js';
import { type Facets, facetNormal } from './facets.js';
import { after, cornersOf, type Sheet } from './sheet.js';
import { smoothCosine } from './smooth.js';
import type { PlaneCandidate } from './surface.js';

/** A face that bends gently into its neighbours must be this many times as wide as they are. */
const wider = 2.5;

/** Share of the border that may bend gently without more questions. */
const mostGentle = 0.2;

/**
 * Facets that are faces of the part and no pieces of a tessellated round: their border is sharp, or they are far wider
 * than the strips they bend into.
 *
 * @param taken triangles that belong to a surface already
 */
export function findFlats(sheet: Sheet, facets: Facets, taken: Uint8Array): PlaneCandidate[] {
  const borders = measureBorders(sheet, facets);
  const found: PlaneCandidate[] = [];
  const least = leastArea(sheet);
  for (let i = 0; i < facets.count; i++) {
    const area = facets.areas[i]!;
    if (area < least || taken[facets.order[facets.starts[i]!]!] === 1) continue;
    if (borders.smooth[i]! > mostGentle * borders.length[i]!) {
      const width = area / borders.length[i]!;
      const beside = borders.beside[i]! / borders.smooth[i]!;
      if (width < wider * beside) continue;
    }
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

interface Borders {
  readonly length: Float64Array;
  /** Length that bends gently. */
  readonly smooth: Float64Array;
  /** Σ width of the neighbour × length, over the smooth borders. */
  readonly beside: Float64Array;
}

function measureBorders({ triangles, corners, positions: p, beyond }: Sheet, facets: Facets): Borders {
  const length = new Float64Array(facets.count);
  const smooth = new Float64Array(facets.count);
  const beside = new Float64Array(facets.count);
  const each = (visit: (facet: number, other: number, edge: number) => void): void => {
    for (let h = 0; h < 3 * triangles; h++) {
      const facet = facets.facetOf[Math.floor(h / 3)]!;
      const other = beyond[h]! < 0 ? -1 : facets.facetOf[beyond[h]!]!;
      if (facet < 0 || facet === other) continue;
      const a = 3 * corners[h]!;
      const b = 3 * corners[after(h)]!;
      const edge = Math.sqrt(
        (p[a]! - p[b]!) ** 2 + (p[a + 1]! - p[b + 1]!) ** 2 + (p[a + 2]! - p[b + 2]!) ** 2,
      );
      visit(facet, other, edge);
    }
  };
  each((facet, _, edge) => {
    length[facet]! += edge;
  });
  each((facet, other, edge) => {
    if (other < 0 || dot(facetNormal(facets, facet), facetNormal(facets, other)) < smoothCosine) return;
    smooth[facet]! += edge;
    beside[facet]! += edge * (facets.areas[other]! / length[other]!);
  });
  return { length, smooth, beside };
}
