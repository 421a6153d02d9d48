import type { Field } from './field.js';
import { nextOf, previousOf, type SurfaceMesh } from './surface-mesh.js';

/** Least cosine between a triangle and the surface's normals at its corners. */
const leastFacing = 0.6;
/** A triangle's height to its longest side: thinner ones are not made. */
const leastShape = 0.04;
/** More than any smooth piece of hardware needs: a crease would be split for ever. */
const mostVertices = 120_000;
/** Thinner ones are got rid of, where that can be, after the last splits. */
const needle = 0.06;

/**
 * Fits a mesh whose corners lie on a field's level surface to it: splits edges that stray from the surface by more than
 * `tolerance` mm, flips edges along the lesser curvature and collapses those that are not needed. Works by the
 * surface's normals at the corners (an edge between two strays by (n₂ − n₁)·(p₂ − p₁)/8) and measures at last by the
 * field itself.
 */
export class SurfaceFitter {
  readonly #mesh: SurfaceMesh;
  readonly #field: Field;
  readonly #level: number;
  readonly #tolerance: number;
  readonly #gradient = new Float64Array(3);
  /** Edges, by the lower of their half-edges, to be looked at for flipping; and whether each is among them. */
  readonly #touched: number[] = [];
  #waiting = new Uint8Array(0);
  /** Corners of the triangles when they were last measured by the field. */
  #measured = new Int32Array(0);
  /** Pairs of needles that may still be flipped in this tidying; enough for all there are, and an end to it. */
  #parings = 0;

  constructor(mesh: SurfaceMesh, field: Field, level: number, tolerance: number) {
    this.#mesh = mesh;
    this.#field = field;
    this.#level = level;
    this.#tolerance = tolerance;
  }

  fit(): void {
    const goal = 0.94 * this.#tolerance;
    for (let h = 0; h < this.#mesh.halfEdges; h++) this.#touch(h);
    // What the grid made too small goes first; the rest is then cheaper.
    this.#collapseAll(goal);
    this.#flipAll(goal);
    for (let pass = 0; pass < 12 && this.#refine(goal) > 0; pass++) this.#flipAll(goal);
    for (let pass = 0; pass < 6; pass++) {
      const gone = this.#collapseAll(goal);
      this.#flipAll(goal);
      if (gone < 0.01 * (this.#mesh.halfEdges / 6)) break;
    }
    // At the last, by the field. First everything, then what splits and tidying have made.
    for (let h = 0; h < this.#mesh.halfEdges; h++) if (!this.#mesh.isGone(h)) this.#touch(h);
    this.#tidy();
    for (let pass = 0; pass < 24; pass++) {
      if (this.#mend() === 0) break;
      this.#tidy();
    }
  }

  /** Signed sagitta of an edge, from the normals at its ends; mm, positive where the surface is round. */
  #sagitta(a: number, b: number): number {
    const p = this.#mesh.positions;
    const n = this.#mesh.normals;
    const i = 3 * a;
    const j = 3 * b;
    return (
      ((n[j]! - n[i]!) * (p[j]! - p[i]!) +
        (n[j + 1]! - n[i + 1]!) * (p[j + 1]! - p[i + 1]!) +
        (n[j + 2]! - n[i + 2]!) * (p[j + 2]! - p[i + 2]!)) /
      8
    );
  }

  /**
   * How far the surface strays from an edge, mm. A cubic with slopes s₁ and s₂ against its chord at the ends strays by
   * (s₁ − s₂)/8 in the middle, or by a tenth of either in an S.
   */
  #stray(a: number, b: number): number {
    const p = this.#mesh.positions;
    const n = this.#mesh.normals;
    const i = 3 * a;
    const j = 3 * b;
    const dx = p[j]! - p[i]!;
    const dy = p[j + 1]! - p[i + 1]!;
    const dz = p[j + 2]! - p[i + 2]!;
    const atA = n[i]! * dx + n[i + 1]! * dy + n[i + 2]! * dz;
    const atB = n[j]! * dx + n[j + 1]! * dy + n[j + 2]! * dz;
    return largest(Math.abs(atB - atA) / 8, 0.1 * Math.abs(atA), 0.1 * Math.abs(atB));
  }

  /** How far the surface strays from a triangle, mm: at its edges' middles, and at its centre by the quadratic there. */
  #strayOf(a: number, b: number, c: number): number {
    const middle = (4 / 9) * Math.abs(this.#sagitta(a, b) + this.#sagitta(b, c) + this.#sagitta(c, a));
    const edges = largest(this.#stray(a, b), this.#stray(b, c), this.#stray(c, a));
    return Math.max(edges, middle);
  }

  /** Splits the edges that stray, the worst first. Returns their number. */
  #refine(goal: number): number {
    const mesh = this.#mesh;
    const found: number[] = [];
    const by = new Float64Array(mesh.halfEdges);
    for (let h = 0; h < mesh.halfEdges; h++) {
      if (mesh.isGone(h) || mesh.twin[h]! < h) continue;
      by[h] = this.#stray(mesh.from[h]!, mesh.to(h));
      if (by[h]! > goal) found.push(h);
    }
    if (found.length === 0) {
      // Edges hold, yet a centre may not.
      for (let f = 0; f < mesh.halfEdges; f += 3) {
        if (mesh.isGone(f)) continue;
        if (this.#strayOf(mesh.from[f]!, mesh.from[f + 1]!, mesh.from[f + 2]!) > goal)
          found.push(this.#worstEdge(f));
      }
    }
    found.sort((g, h) => by[h]! - by[g]!);
    const limit = mesh.vertices;
    let count = 0;
    for (const h of found) {
      // A neighbour's split may have put this half-edge elsewhere, or done away with it.
      if (mesh.isGone(h) || mesh.from[h]! >= limit || mesh.to(h) >= limit) continue;
      this.#splitEdge(h);
      count++;
    }
    return count;
  }

  #worstEdge(f: number): number {
    const mesh = this.#mesh;
    let [best, most] = [f, -1];
    for (let h = f; h < f + 3; h++) {
      const by = Math.abs(this.#sagitta(mesh.from[h]!, mesh.to(h)));
      if (by > most) [best, most] = [h, by];
    }
    return best;
  }

  #splitEdge(h: number): void {
    const mesh = this.#mesh;
    const [a, b] = [3 * mesh.from[h]!, 3 * mesh.to(h)];
    const { positions: p, normals: n } = mesh;
    // Begin where the surface is expected, over the middle.
    const lift = this.#sagitta(a / 3, b / 3);
    let [nx, ny, nz] = [n[a]! + n[b]!, n[a + 1]! + n[b + 1]!, n[a + 2]! + n[b + 2]!];
    const length = Math.sqrt(nx * nx + ny * ny + nz * nz) || 1;
    [nx, ny, nz] = [nx / length, ny / length, nz / length];
    const x = (p[a]! + p[b]!) / 2 + lift * nx;
    const y = (p[a + 1]! + p[b + 1]!) / 2 + lift * ny;
    const z = (p[a + 2]! + p[b + 2]!) / 2 + lift * nz;
    if (mesh.vertices > mostVertices)
      throw new RangeError(
        `a surface needs more than ${mostVertices} corners to keep within ${this.#tolerance} mm near ` +
          `${x.toFixed(2)}, ${y.toFixed(2)}, ${z.toFixed(2)}: it has a crease there, or the tolerance is too fine`,
      );
    const m = mesh.split(h);
    this.#place(m, x, y, z);
    if (this.#leastQuality(m) <= 0 && this.#flipInstead(h)) return;
    this.#touchRound(m);
  }

  /**
   * Takes back the split of an edge and flips it: where the corner of a needle lies all but on the edge, the new
   * vertex would turn it over, and the surface is already there.
   */
  #flipInstead(h: number): boolean {
    const mesh = this.#mesh;
    const a = mesh.from[h]!;
    // What the split joined: the far end, and the corners on both sides.
    const onward = nextOf(mesh.twin[nextOf(h)]!);
    const b = mesh.to(onward);
    const c = mesh.from[previousOf(h)]!;
    const d = mesh.from[previousOf(mesh.twin[h]!)]!;
    if (Math.min(this.#quality(a, b, c), this.#quality(b, a, d)) > needle || mesh.areJoined(c, d))
      return false;
    if (Math.min(this.#quality(a, d, c), this.#quality(b, c, d)) <= 0) return false;
    mesh.collapse(h);
    let edge = mesh.leaving[a]!;
    while (mesh.to(edge) !== b) edge = nextOf(mesh.twin[edge]!);
    mesh.flip(edge);
    this.#touch(edge);
    for (const k of [nextOf(edge), previousOf(edge), nextOf(mesh.twin[edge]!), previousOf(mesh.twin[edge]!)])
      this.#touch(k);
    return true;
  }

  /** The worst triangle round a vertex. */
  #leastQuality(vertex: number): number {
    const mesh = this.#mesh;
    const first = mesh.leaving[vertex]!;
    let least = 1;
    let h = first;
    do {
      least = Math.min(least, this.#quality(vertex, mesh.to(h), mesh.from[previousOf(h)]!));
      h = nextOf(mesh.twin[h]!);
    } while (h !== first);
    return least;
  }

  /** Puts a vertex on the surface, from a point near it, down the field's gradient. */
  #place(vertex: number, x0: number, y0: number, z0: number): void {
    const g = this.#gradient;
    let [x, y, z] = [x0, y0, z0];
    for (let i = 0; i < 12; i++) {
      const off = this.#field.distance(x, y, z, g) - this.#level;
      x -= off * g[0]!;
      y -= off * g[1]!;
      z -= off * g[2]!;
      if (Math.abs(off) < 1e-8) break;
    }
    this.#mesh.positions.set([x, y, z], 3 * vertex);
    this.#mesh.normals.set(g, 3 * vertex);
  }

  /**
   * Flips edges, among those touched since the last time, where the other diagonal strays less, or, where both hold,
   * where it makes better triangles.
   */
  #flipAll(goal: number): void {
    const mesh = this.#mesh;
    const stack = this.#touched;
    // An edge may turn back and forth between two measures; enough is enough.
    let left = 4 * mesh.halfEdges;
    while (stack.length > 0 && left-- > 0) {
      const h = stack.pop()!;
      this.#waiting[h] = 0;
      if (mesh.isGone(h) || !this.#shouldFlip(h, goal)) continue;
      mesh.flip(h);
      const t = mesh.twin[h]!;
      this.#touch(nextOf(h));
      this.#touch(previousOf(h));
      this.#touch(nextOf(t));
      this.#touch(previousOf(t));
    }
    for (const h of stack) this.#waiting[h] = 0;
    stack.length = 0;
  }

  /** Puts an edge on the list of those to look at. */
  #touch(h: number): void {
    const one = Math.min(h, this.#mesh.twin[h]!);
    if (this.#waiting.length < this.#mesh.from.length) {
      const grown = new Uint8Array(this.#mesh.from.length);
      grown.set(this.#waiting);
      this.#waiting = grown;
    }
    if (this.#waiting[one] === 1) return;
    this.#waiting[one] = 1;
    this.#touched.push(one);
  }

  /** The edges of all triangles round a vertex. */
  #touchRound(vertex: number): void {
    const mesh = this.#mesh;
    const first = mesh.leaving[vertex]!;
    let h = first;
    do {
      this.#touch(h);
      this.#touch(nextOf(h));
      h = nextOf(mesh.twin[h]!);
    } while (h !== first);
  }

  #shouldFlip(h: number, goal: number): boolean {
    const mesh = this.#mesh;
    const t = mesh.twin[h]!;
    const a = mesh.from[h]!;
    const b = mesh.from[t]!;
    const c = mesh.from[previousOf(h)]!;
    const d = mesh.from[previousOf(t)]!;
    const shapeAfter = Math.min(this.#quality(a, d, c), this.#quality(b, c, d));
    if (shapeAfter <= 0) return false;
    const before = Math.max(this.#strayOf(a, b, c), this.#strayOf(b, a, d));
    const after = Math.max(this.#strayOf(a, d, c), this.#strayOf(b, c, d));
    const shapeBefore = Math.min(this.#quality(a, b, c), this.#quality(b, a, d));
    const nearer =
      after < 0.9 * before && before > 0.3 * goal && shapeAfter > Math.min(leastShape, shapeBefore);
    const better = shapeAfter > 1.1 * shapeBefore && after <= Math.max(0.5 * goal, before);
    return (nearer || better) && !mesh.areJoined(c, d);
  }

  /**
   * Height over longest side of a triangle, 0 to 0.87; below 0 when it does not face along the surface's normals at
   * its corners.
   */
  #quality(a: number, b: number, c: number): number {
    const p = this.#mesh.positions;
    const n = this.#mesh.normals;
    const i = 3 * a;
    const j = 3 * b;
    const k = 3 * c;
    const ux = p[j]! - p[i]!;
    const uy = p[j + 1]! - p[i + 1]!;
    const uz = p[j + 2]! - p[i + 2]!;
    const vx = p[k]! - p[i]!;
    const vy = p[k + 1]! - p[i + 1]!;
    const vz = p[k + 2]! - p[i + 2]!;
    const x = uy * vz - uz * vy;
    const y = uz * vx - ux * vz;
    const z = ux * vy - uy * vx;
    const area = Math.sqrt(x * x + y * y + z * z);
    if (!(area > 1e-12)) return -1;
    const least = leastFacing * area;
    if (
      x * n[i]! + y * n[i + 1]! + z * n[i + 2]! < least ||
      x * n[j]! + y * n[j + 1]! + z * n[j + 2]! < least ||
      x * n[k]! + y * n[k + 1]! + z * n[k + 2]! < least
    )
      return -1;
    const wx = vx - ux;
    const wy = vy - uy;
    const wz = vz - uz;
    return (
      area / largest(ux * ux + uy * uy + uz * uz, vx * vx + vy * vy + vz * vz, wx * wx + wy * wy + wz * wz)
    );
  }

  /** Collapses edges, the shortest first, as far as the surface bears it. Returns their number. */
  #collapseAll(goal: number): number {
    const mesh = this.#mesh;
    const edges: number[] = [];
    const lengths = new Float64Array(mesh.halfEdges);
    for (let h = 0; h < mesh.halfEdges; h++) {
      if (mesh.isGone(h) || mesh.twin[h]! < h) continue;
      lengths[h] = this.#length(h);
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
      this.#touchRound(kept);
      count++;
    }
    return count;
  }

  #length(h: number): number {
    const p = this.#mesh.positions;
    const i = 3 * this.#mesh.from[h]!;
    const j = 3 * this.#mesh.to(h);
    return (p[j]! - p[i]!) ** 2 + (p[j + 1]! - p[i + 1]!) ** 2 + (p[j + 2]! - p[i + 2]!) ** 2;
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
        if (this.#quality(a, p, q) < leastShape) return Number.POSITIVE_INFINITY;
        worst = Math.max(worst, this.#strayOf(a, p, q));
        if (worst > goal) return worst;
      }
      k = nextOf(mesh.twin[k]!);
    } while (k !== start);
    return worst;
  }

  /**
   * Measures by the field the triangles not measured before, with their edges, and splits what strays. Returns how
   * many edges were split.
   */
  #mend(): number {
    const mesh = this.#mesh;
    const { from, twin } = mesh;
    const strays = new Float64Array(mesh.halfEdges);
    const split: number[] = [];
    for (let h = 0; h < mesh.halfEdges; h++) {
      if (mesh.isGone(h) || twin[h]! < h) continue;
      const a = from[h]!;
      const b = mesh.to(h);
      if (this.#isMeasured(h) && this.#isMeasured(twin[h]!)) continue;
      const off = this.#offEdge(a, b);
      strays[h] = off;
      strays[twin[h]!] = off;
      if (off > this.#tolerance) split.push(h);
    }
    for (let f = 0; f < mesh.halfEdges; f += 3) {
      if (mesh.isGone(f)) continue;
      if (this.#isMeasured(f)) continue;
      const near = largest(strays[f]!, strays[f + 1]!, strays[f + 2]!);
      const off = this.#offInside(from[f]!, from[f + 1]!, from[f + 2]!, near);
      if (off <= this.#tolerance) continue;
      let worst = f;
      for (const h of [f + 1, f + 2]) if (strays[h]! > strays[worst]!) worst = h;
      if (strays[worst]! <= this.#tolerance) split.push(worst);
    }
    this.#keepMeasured();
    const limit = mesh.vertices;
    let count = 0;
    for (const h of split) {
      if (mesh.isGone(h) || mesh.from[h]! >= limit || mesh.to(h) >= limit) continue;
      this.#splitEdge(h);
      count++;
    }
    return count;
  }

  /** Rids what the last splits touched of needles: flips their long sides or collapses their short ones, measured. */
  #tidy(): void {
    const mesh = this.#mesh;
    this.#parings = 200;
    const stack = this.#touched;
    while (stack.length > 0) {
      const h = stack.pop()!;
      this.#waiting[h] = 0;
      if (mesh.isGone(h)) continue;
      for (const f of [h - (h % 3), mesh.twin[h]! - (mesh.twin[h]! % 3)])
        if (!mesh.isGone(f)) this.#tidyTriangle(f);
    }
  }

  #tidyTriangle(f: number): void {
    const mesh = this.#mesh;
    const shape = this.#quality(mesh.from[f]!, mesh.from[f + 1]!, mesh.from[f + 2]!);
    if (shape > needle) return;
    const sides = [f, f + 1, f + 2].sort((g, h) => this.#length(g) - this.#length(h));
    const [short, middle, long] = sides as [number, number, number];
    if (this.#tryCollapse(short, shape, this.#tolerance) || this.#tryFlip(long, shape, this.#tolerance))
      return;
    // A needle may stay; a triangle turned over may not, even if the surface strays for a while.
    if (shape > 0 || !this.#isTurned(f)) return;
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
    if (this.#quality(mesh.from[t]!, mesh.from[long]!, d) > needle) return;
    this.#parings--;
    mesh.flip(long);
    for (const h of [nextOf(long), previousOf(long), nextOf(t), previousOf(t)]) this.#touch(h);
  }

  /** Whether a triangle faces into the body, by the normals at its corners. */
  #isTurned(f: number): boolean {
    const { positions: p, normals: n, from } = this.#mesh;
    const i = 3 * from[f]!;
    const j = 3 * from[f + 1]!;
    const k = 3 * from[f + 2]!;
    const side = (a: number, b: number, axis: number): number => p[b + axis]! - p[a + axis]!;
    let facing = 0;
    for (let axis = 0; axis < 3; axis++) {
      const [y, z] = [(axis + 1) % 3, (axis + 2) % 3];
      const along = side(i, j, y) * side(i, k, z) - side(i, j, z) * side(i, k, y);
      facing += along * (n[i + axis]! + n[j + axis]! + n[k + axis]!);
    }
    return facing <= 0;
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
      this.#touchRound(kept);
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
    const after = Math.min(this.#quality(a, d, c), this.#quality(b, c, d));
    if (after <= Math.max(shape, 0) || mesh.areJoined(c, d)) return false;
    const off = this.#offEdge(c, d);
    if (Math.max(off, this.#offInside(a, d, c, off), this.#offInside(b, c, d, off)) > limit) return false;
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
        if (this.#quality(a, p, q) <= Math.max(shape, 0)) return false;
        const off = Math.max(this.#offEdge(a, p), this.#offEdge(a, q));
        if (off > limit || this.#offInside(a, p, q, off) > limit) return false;
      }
      k = nextOf(mesh.twin[k]!);
    } while (k !== start);
    return true;
  }

  /**
   * How far the surface is from the inside of a triangle, mm: at its centre, and where that or its edges (`near`) come
   * near the tolerance, at six places round it.
   */
  #offInside(a: number, b: number, c: number, near: number): number {
    const p = this.#mesh.positions;
    const i = 3 * a;
    const j = 3 * b;
    const k = 3 * c;
    const at = (f: number, g: number, h: number): number =>
      this.#off(
        f * p[i]! + g * p[j]! + h * p[k]!,
        f * p[i + 1]! + g * p[j + 1]! + h * p[k + 1]!,
        f * p[i + 2]! + g * p[j + 2]! + h * p[k + 2]!,
      );
    const centre = at(1 / 3, 1 / 3, 1 / 3);
    if (Math.max(centre, near) < 0.4 * this.#tolerance || centre > this.#tolerance) return centre;
    const corners = largest(at(0.6, 0.2, 0.2), at(0.2, 0.6, 0.2), at(0.2, 0.2, 0.6));
    const sides = largest(at(0.2, 0.4, 0.4), at(0.4, 0.2, 0.4), at(0.4, 0.4, 0.2));
    return largest(centre, corners, sides);
  }

  /** How far the surface is from an edge, mm: most at its middle, or beside it where its curvature changes on the way. */
  #offEdge(a: number, b: number): number {
    const p = this.#mesh.positions;
    const i = 3 * a;
    const j = 3 * b;
    const at = (f: number): number =>
      this.#off(
        p[i]! + f * (p[j]! - p[i]!),
        p[i + 1]! + f * (p[j + 1]! - p[i + 1]!),
        p[i + 2]! + f * (p[j + 2]! - p[i + 2]!),
      );
    const middle = at(0.5);
    if (middle > this.#tolerance) return middle;
    // Bent one way, an edge strays near an end by at most twice as much as in the middle; in an S by more, and then
    // it stands well off the normals at its ends.
    if (middle < 0.5 * this.#tolerance && this.#stray(a, b) < 0.3 * this.#tolerance) return middle;
    return largest(largest(middle, at(0.25), at(0.75)), at(0.1), at(0.9));
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

  #off(x: number, y: number, z: number): number {
    return Math.abs(this.#field.distance(x, y, z, this.#gradient) - this.#level);
  }
}

// Math.max of three is slow in hot loops.
function largest(a: number, b: number, c: number): number {
  const most = Math.max(a, b);
  return Math.max(most, c);
}
