import type { Field } from './field.js';
import { SurfaceMender } from './mend-surface.js';
import { EdgeSplitter } from './split-edges.js';
import { SurfaceEstimates } from './surface-estimates.js';
import { SurfaceGauge } from './surface-gauge.js';
import { nextOf, previousOf, type SurfaceMesh } from './surface-mesh.js';
import { TouchedEdges } from './touched-edges.js';

/** A triangle's height to its longest side: thinner ones are not made. */
const leastShape = 0.04;

/**
 * Fits a mesh whose corners lie on a field's level surface to it: splits edges that stray from the surface by more than
 * `tolerance` mm, flips edges along the lesser curvature and collapses those that are not needed. Works by the
 * surface's normals at the corners, and measures at last by the field itself.
 *
 * @throws RangeError for a surface that is not smooth
 */
export function fitSurface(mesh: SurfaceMesh, field: Field, level: number, tolerance: number): void {
  const shape = new SurfaceEstimates(mesh);
  const gauge = new SurfaceGauge(mesh, shape, field, level, tolerance);
  const touched = new TouchedEdges(mesh);
  const splitter = new EdgeSplitter(mesh, shape, gauge, touched);
  new SurfaceFitter(mesh, shape, splitter, touched).fit(0.94 * tolerance);
  new SurfaceMender(mesh, shape, gauge, splitter, touched, tolerance).mend();
}

/** The part of the fitting that goes by estimates. */
class SurfaceFitter {
  readonly #mesh: SurfaceMesh;
  readonly #shape: SurfaceEstimates;
  readonly #splitter: EdgeSplitter;
  readonly #touched: TouchedEdges;

  constructor(mesh: SurfaceMesh, shape: SurfaceEstimates, splitter: EdgeSplitter, touched: TouchedEdges) {
    this.#mesh = mesh;
    this.#shape = shape;
    this.#splitter = splitter;
    this.#touched = touched;
  }

  fit(goal: number): void {
    this.#touched.addAll();
    // What the grid made too small goes first; the rest is then cheaper.
    this.#collapseAll(goal);
    this.#flipAll(goal);
    for (let pass = 0; pass < 12 && this.#refine(goal) > 0; pass++) this.#flipAll(goal);
    for (let pass = 0; pass < 6; pass++) {
      const gone = this.#collapseAll(goal);
      this.#flipAll(goal);
      if (gone < 0.01 * (this.#mesh.halfEdges / 6)) break;
    }
  }

  /** Splits the edges that stray, the worst first. Returns their number. */
  #refine(goal: number): number {
    const mesh = this.#mesh;
    const found: number[] = [];
    const by = new Float64Array(mesh.halfEdges);
    for (let h = 0; h < mesh.halfEdges; h++) {
      if (mesh.isGone(h) || mesh.twin[h]! < h) continue;
      by[h] = this.#shape.stray(mesh.from[h]!, mesh.to(h));
      if (by[h]! > goal) found.push(h);
    }
    if (found.length === 0) {
      // Edges hold, yet a centre may not.
      for (let f = 0; f < mesh.halfEdges; f += 3) {
        if (mesh.isGone(f)) continue;
        if (this.#shape.strayOf(mesh.from[f]!, mesh.from[f + 1]!, mesh.from[f + 2]!) > goal)
          found.push(this.#worstEdge(f));
      }
    }
    found.sort((g, h) => by[h]! - by[g]!);
    return this.#splitter.splitAll(found);
  }

  #worstEdge(f: number): number {
    const mesh = this.#mesh;
    let [best, most] = [f, -1];
    for (let h = f; h < f + 3; h++) {
      const by = Math.abs(this.#shape.sagitta(mesh.from[h]!, mesh.to(h)));
      if (by > most) [best, most] = [h, by];
    }
    return best;
  }

  /**
   * Flips edges, among those touched since the last time, where the other diagonal strays less, or, where both hold,
   * where it makes better triangles.
   */
  #flipAll(goal: number): void {
    const mesh = this.#mesh;
    // An edge may turn back and forth between two measures; enough is enough.
    let left = 4 * mesh.halfEdges;
    for (let h = this.#touched.take(); h !== undefined && left-- > 0; h = this.#touched.take()) {
      if (mesh.isGone(h) || !this.#shouldFlip(h, goal)) continue;
      mesh.flip(h);
      this.#touched.addBeside(h);
    }
    this.#touched.clear();
  }

  #shouldFlip(h: number, goal: number): boolean {
    const mesh = this.#mesh;
    const t = mesh.twin[h]!;
    const a = mesh.from[h]!;
    const b = mesh.from[t]!;
    const c = mesh.from[previousOf(h)]!;
    const d = mesh.from[previousOf(t)]!;
    const shapeAfter = Math.min(this.#shape.quality(a, d, c), this.#shape.quality(b, c, d));
    if (shapeAfter <= 0) return false;
    const shapeBefore = Math.min(this.#shape.quality(a, b, c), this.#shape.quality(b, a, d));
    const isShapelier = shapeAfter > 1.1 * shapeBefore;
    if (!isShapelier && shapeAfter <= Math.min(leastShape, shapeBefore)) return false;
    // One measure at a time: were near ones weighed too while shape decides, edges would turn back and forth.
    const enough = 0.5 * goal;
    const before = Math.max(this.#shape.strayOf(a, b, c), this.#shape.strayOf(b, a, d));
    if (!isShapelier && before <= enough) return false;
    const after = Math.max(this.#shape.strayOf(a, d, c), this.#shape.strayOf(b, c, d));
    const nearer = after < 0.9 * before && before > enough && shapeAfter > Math.min(leastShape, shapeBefore);
    const better = isShapelier && after <= Math.max(enough, before);
    return (nearer || better) && !mesh.areJoined(c, d);
  }

  /** Collapses edges, the shortest first, as far as the surface bears it. Returns their number. */
  #collapseAll(goal: number): number {
    const mesh = this.#mesh;
    const edges: number[] = [];
    const lengths = new Float64Array(mesh.halfEdges);
    for (let h = 0; h < mesh.halfEdges; h++) {
      if (mesh.isGone(h) || mesh.twin[h]! < h) continue;
      lengths[h] = this.#shape.lengthSquared(h);
      edges.push(h);
    }
    edges.sort((g, h) => lengths[g]! - lengths[h]!);
    let count = 0;
    for (const h of edges) {
      if (mesh.isGone(h)) continue;
      const t = mesh.twin[h]!;
      const one = this.#collapseStray(h, goal);
      const other = this.#collapseStray(t, goal);
      const best = one <= other ? h : t;
      if (Math.min(one, other) > goal || !mesh.mayCollapse(best)) continue;
      const kept = mesh.from[best]!;
      mesh.collapse(best);
      this.#touched.addRound(kept);
      count++;
    }
    return count;
  }

  /** How far the surface would stray were an edge's end drawn into its start; infinite where a triangle went bad. */
  #collapseStray(h: number, goal: number): number {
    const mesh = this.#mesh;
    const [a, b] = [mesh.from[h]!, mesh.to(h)];
    let worst = 0;
    // Triangles round b but the two on the edge.
    const start = mesh.leaving[b]!;
    let k = start;
    do {
      const p = mesh.to(k);
      const q = mesh.from[previousOf(k)]!;
      if (p !== a && q !== a) {
        if (this.#shape.quality(a, p, q) < leastShape) return Number.POSITIVE_INFINITY;
        worst = Math.max(worst, this.#shape.strayOf(a, p, q));
        if (worst > goal) return worst;
      }
      k = nextOf(mesh.twin[k]!);
    } while (k !== start);
    return worst;
  }
}
