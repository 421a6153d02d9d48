import { type EdgeSplitter, needle } from './split-edges.js';
import type { SurfaceEstimates } from './surface-estimates.js';
import type { SurfaceGauge } from './surface-gauge.js';
import { nextOf, previousOf, type SurfaceMesh } from './surface-mesh.js';
import type { TouchedEdges } from './touched-edges.js';

/** The last of the fitting: measures by the field, splits what strays and gets rid of needles. */
export class SurfaceMender {
  readonly #mesh: SurfaceMesh;
  readonly #shape: SurfaceEstimates;
  readonly #gauge: SurfaceGauge;
  readonly #splitter: EdgeSplitter;
  readonly #touched: TouchedEdges;
  readonly #tolerance: number;
  /** Corners of the triangles when they were last measured by the field. */
  #measured = new Int32Array(0);
  /** Pairs of needles that may still be flipped in this tidying; enough for all there are, and an end to it. */
  #parings = 0;

  constructor(
    mesh: SurfaceMesh,
    shape: SurfaceEstimates,
    gauge: SurfaceGauge,
    splitter: EdgeSplitter,
    touched: TouchedEdges,
    tolerance: number,
  ) {
    this.#mesh = mesh;
    this.#shape = shape;
    this.#gauge = gauge;
    this.#splitter = splitter;
    this.#touched = touched;
    this.#tolerance = tolerance;
  }

  /** First everything, then what splits and tidying have made. */
  mend(): void {
    this.#touched.addAll();
    this.#tidy();
    for (let pass = 0; pass < 24; pass++) {
      if (this.#splitStrays() === 0) break;
      this.#tidy();
    }
  }

  /**
   * Measures by the field the triangles not measured before, with their edges, and splits what strays. Returns how
   * many edges were split.
   */
  #splitStrays(): number {
    const mesh = this.#mesh;
    const { from, twin } = mesh;
    const strays = new Float64Array(mesh.halfEdges);
    const split: number[] = [];
    for (let h = 0; h < mesh.halfEdges; h++) {
      if (mesh.isGone(h) || twin[h]! < h) continue;
      const a = from[h]!;
      const b = mesh.to(h);
      if (this.#isMeasured(h) && this.#isMeasured(twin[h]!)) continue;
      const off = this.#gauge.offEdge(a, b);
      strays[h] = off;
      strays[twin[h]!] = off;
      if (off > this.#tolerance) split.push(h);
    }
    for (let f = 0; f < mesh.halfEdges; f += 3) {
      if (mesh.isGone(f)) continue;
      if (this.#isMeasured(f)) continue;
      const near = Math.max(strays[f]!, strays[f + 1]!, strays[f + 2]!);
      const off = this.#gauge.offInside(from[f]!, from[f + 1]!, from[f + 2]!, near);
      if (off <= this.#tolerance) continue;
      let worst = f;
      for (const h of [f + 1, f + 2]) if (strays[h]! > strays[worst]!) worst = h;
      if (strays[worst]! <= this.#tolerance) split.push(worst);
    }
    this.#keepMeasured();
    return this.#splitter.splitAll(split);
  }

  /** Rids what the last splits touched of needles: flips their long sides or collapses their short ones, measured. */
  #tidy(): void {
    const mesh = this.#mesh;
    this.#parings = 200;
    // Each change makes something better; this is an end to it whatever happens.
    let left = 20 * mesh.halfEdges;
    for (let h = this.#touched.take(); h !== undefined && left-- > 0; h = this.#touched.take()) {
      if (mesh.isGone(h)) continue;
      for (const f of [h - (h % 3), mesh.twin[h]! - (mesh.twin[h]! % 3)])
        if (!mesh.isGone(f)) this.#tidyTriangle(f);
    }
    this.#touched.clear();
  }

  #tidyTriangle(f: number): void {
    const mesh = this.#mesh;
    const shape = this.#shape.quality(mesh.from[f]!, mesh.from[f + 1]!, mesh.from[f + 2]!);
    if (shape > needle) return;
    const sides = [f, f + 1, f + 2].sort(
      (g, h) => this.#shape.lengthSquared(g) - this.#shape.lengthSquared(h),
    );
    const [short, middle, long] = sides as [number, number, number];
    if (this.#tryCollapse(short, shape, this.#tolerance) || this.#tryFlip(long, shape, this.#tolerance))
      return;
    // A needle may stay; a triangle turned over may not, even if the surface strays for a while.
    if (shape > 0 || !this.#shape.isTurned(f)) return;
    for (const limit of [this.#tolerance, 4 * this.#tolerance, 16 * this.#tolerance])
      for (const h of [short, long, middle])
        if (this.#tryCollapse(h, 0, limit) || this.#tryFlip(h, 0, limit)) return;
    this.#parNeedles(long);
  }

  /**
   * Two needles back to back on a long edge, their points past each other along it: flips the edge though both stay
   * needles, whose own long edges can then be flipped into the triangles beyond.
   */
  #parNeedles(long: number): void {
    const mesh = this.#mesh;
    const t = mesh.twin[long]!;
    const c = mesh.from[previousOf(long)]!;
    const d = mesh.from[previousOf(t)]!;
    if (this.#parings <= 0 || mesh.areJoined(c, d)) return;
    if (this.#shape.quality(mesh.from[t]!, mesh.from[long]!, d) > needle) return;
    this.#parings--;
    mesh.flip(long);
    this.#touched.addBeside(long);
  }

  /** Collapses an edge towards either end if no triangle gets worse than `shape`, nor strays beyond the limit. */
  #tryCollapse(edge: number, shape: number, limit: number): boolean {
    const mesh = this.#mesh;
    // The younger end stays: the other way would only take back the split that brought it, to be made again.
    const twin = mesh.twin[edge]!;
    for (const h of mesh.from[edge]! > mesh.from[twin]! ? [edge, twin] : [twin, edge]) {
      if (!this.#collapseHolds(h, shape, limit) || !mesh.mayCollapse(h)) continue;
      const kept = mesh.from[h]!;
      mesh.collapse(h);
      this.#touched.addRound(kept);
      return true;
    }
    return false;
  }

  /** Flips an edge under the same conditions. */
  #tryFlip(h: number, shape: number, limit: number): boolean {
    const mesh = this.#mesh;
    const t = mesh.twin[h]!;
    const a = mesh.from[h]!;
    const b = mesh.from[t]!;
    const c = mesh.from[previousOf(h)]!;
    const d = mesh.from[previousOf(t)]!;
    const after = Math.min(this.#shape.quality(a, d, c), this.#shape.quality(b, c, d));
    if (after <= Math.max(shape, 0) || mesh.areJoined(c, d)) return false;
    const off = this.#gauge.offEdge(c, d);
    if (Math.max(off, this.#gauge.offInside(a, d, c, off), this.#gauge.offInside(b, c, d, off)) > limit)
      return false;
    mesh.flip(h);
    return true;
  }

  /** Whether an edge's end may be drawn into its start: every triangle better than `shape`, and none off the surface. */
  #collapseHolds(h: number, shape: number, limit: number): boolean {
    const mesh = this.#mesh;
    const a = mesh.from[h]!;
    const start = mesh.leaving[mesh.to(h)]!;
    let k = start;
    do {
      const p = mesh.to(k);
      const q = mesh.from[previousOf(k)]!;
      if (p !== a && q !== a) {
        if (this.#shape.quality(a, p, q) <= Math.max(shape, 0)) return false;
        const off = Math.max(this.#gauge.offEdge(a, p), this.#gauge.offEdge(a, q));
        if (off > limit || this.#gauge.offInside(a, p, q, off) > limit) return false;
      }
      k = nextOf(mesh.twin[k]!);
    } while (k !== start);
    return true;
  }

  /** Whether the triangle of a half-edge is as it was when last measured. */
  #isMeasured(h: number): boolean {
    const f = h - (h % 3);
    const was = this.#measured;
    const { from } = this.#mesh;
    return f < was.length && was[f] === from[f] && was[f + 1] === from[f + 1] && was[f + 2] === from[f + 2];
  }

  #keepMeasured(): void {
    this.#measured = this.#mesh.from.slice(0, this.#mesh.halfEdges);
  }
}
