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
  const neighbours = new FacetNeighbours(sheet, facets);
  const isCurve = (i: number): boolean => neighbours.of(i).alike.length > 1;
  const found: PlaneCandidate[] = [];
  const least = leastArea(sheet);
  for (let i = 0; i < facets.count; i++) {
    if (facets.areas[i]! < least || taken[facets.order[facets.starts[i]!]!] === 1) continue;
    const { alike, gentle } = neighbours.of(i);
    if (isCurve(i) || alike.some(isCurve)) continue;
    if (gentle > mostGentle && facets.areas[i]! < leastGentle * sheet.area) continue;
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
  /** Facets that it bends gently into and that are not much narrower. */
  readonly alike: readonly number[];
  /** Share of the border that bends gently into whatever. */
  readonly gentle: number;
}

/** What borders on a facet; worked out when asked, since most are too small to ask. */
class FacetNeighbours {
  readonly #sheet: Sheet;
  readonly #facets: Facets;
  readonly #border: Float64Array;
  readonly #known = new Map<number, Neighbours>();
  /** Facets that would leave a curve this far out of true are meant as flats, whatever the bend; mm. */
  readonly #mostSagitta: number;

  constructor(sheet: Sheet, facets: Facets) {
    this.#sheet = sheet;
    this.#facets = facets;
    this.#mostSagitta = Math.max(0.2, 3e-3 * sheet.size);
    this.#border = new Float64Array(facets.count);
    for (let h = 0; h < 3 * sheet.triangles; h++) {
      const facet = facets.facetOf[Math.floor(h / 3)]!;
      if (facet >= 0 && facet !== this.#beyond(h)) this.#border[facet]! += this.#length(h);
    }
  }

  of(i: number): Neighbours {
    const known = this.#known.get(i);
    if (known) return known;
    const { starts, order } = this.#facets;
    const common = new Map<number, number>();
    for (let at = starts[i]!; at < starts[i + 1]!; at++)
      for (let h = 3 * order[at]!; h < 3 * order[at]! + 3; h++) {
        const other = this.#beyond(h);
        if (other >= 0 && other !== i) common.set(other, (common.get(other) ?? 0) + this.#length(h));
      }
    const alike: number[] = [];
    let gentle = 0;
    for (const [other, edge] of common) {
      const cosine = dot(facetNormal(this.#facets, i), facetNormal(this.#facets, other));
      if (cosine < smoothCosine) continue;
      const share = edge / this.#border[i]!;
      gentle += share;
      const [mine, its] = [this.#width(i), this.#width(other)];
      if (share < leastBorder || its * narrower < mine) continue;
      const bend = maths.acos(Math.min(1, cosine));
      if ((Math.min(mine, its) * bend) / 8 < this.#mostSagitta) alike.push(other);
    }
    const found = { alike, gentle };
    this.#known.set(i, found);
    return found;
  }

  /** Of a strip, its width. */
  #width(i: number): number {
    return (2 * this.#facets.areas[i]!) / this.#border[i]!;
  }

  #beyond(h: number): number {
    const f = this.#sheet.beyond[h]!;
    return f < 0 ? -1 : this.#facets.facetOf[f]!;
  }

  #length(h: number): number {
    const { corners, positions: p } = this.#sheet;
    const a = 3 * corners[h]!;
    const b = 3 * corners[after(h)]!;
    return Math.sqrt((p[a]! - p[b]!) ** 2 + (p[a + 1]! - p[b + 1]!) ** 2 + (p[a + 2]! - p[b + 2]!) ** 2);
  }
}
