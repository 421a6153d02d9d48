import type { Field } from './field.js';
import { nextOf, previousOf, type SurfaceMesh } from './surface-mesh.js';

/** Least cosine between a triangle and the surface's normals at its corners. */
const leastFacing = 0.6;
/** A triangle's height to its longest side: thinner ones are not made. */
const leastShape = 0.03;

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

  constructor(mesh: SurfaceMesh, field: Field, level: number, tolerance: number) {
    this.#mesh = mesh;
    this.#field = field;
    this.#level = level;
    this.#tolerance = tolerance;
  }

  fit(): void {
    const goal = 0.94 * this.#tolerance;
    for (let pass = 0; pass < 12 && this.#refine(goal) > 0; pass++) this.#flipAll(goal);
    this.#flipAll(goal);
    for (let pass = 0; pass < 6; pass++) {
      const gone = this.#collapseAll(goal);
      this.#flipAll(goal);
      if (gone < 0.01 * (this.#mesh.halfEdges / 6)) break;
    }
    for (let pass = 0; pass < 8 && this.#mend() > 0; pass++);
  }

  /** Signed sagitta of an edge, from the normals at its ends; mm, positive where the surface is round. */
  #sagitta(a: number, b: number): number {
    const { positions: p, normals: n } = this.#mesh;
    const [i, j] = [3 * a, 3 * b];
    return (
      ((n[j]! - n[i]!) * (p[j]! - p[i]!) +
        (n[j + 1]! - n[i + 1]!) * (p[j + 1]! - p[i + 1]!) +
        (n[j + 2]! - n[i + 2]!) * (p[j + 2]! - p[i + 2]!)) /
      8
    );
  }

  /** How far the surface strays from an edge that it may cross in an S, mm. */
  #stray(a: number, b: number): number {
    const { positions: p, normals: n } = this.#mesh;
    const [i, j] = [3 * a, 3 * b];
    const [dx, dy, dz] = [p[j]! - p[i]!, p[j + 1]! - p[i + 1]!, p[j + 2]! - p[i + 2]!];
    const atA = n[i]! * dx + n[i + 1]! * dy + n[i + 2]! * dz;
    const atB = n[j]! * dx + n[j + 1]! * dy + n[j + 2]! * dz;
    // A cubic with these slopes at its ends strays by (s₁ − s₂)/8 in the middle, or by a tenth of either in an S.
    return Math.max(Math.abs(atB - atA) / 8, 0.1 * Math.abs(atA), 0.1 * Math.abs(atB));
  }

  /** How far the surface strays from a triangle, mm: at its edges' middles, and at its centre by the quadratic there. */
  #strayOf(a: number, b: number, c: number): number {
    const middle = (4 / 9) * Math.abs(this.#sagitta(a, b) + this.#sagitta(b, c) + this.#sagitta(c, a));
    return Math.max(this.#stray(a, b), this.#stray(b, c), this.#stray(c, a), middle);
  }

  /** Splits the edges that stray, the worst first. Returns their number. */
  #refine(goal: number): number {
    const mesh = this.#mesh;
    const worst: { h: number; by: number }[] = [];
    for (let h = 0; h < mesh.halfEdges; h++) {
      if (mesh.isGone(h) || mesh.twin[h]! < h) continue;
      const by = this.#stray(mesh.from[h]!, mesh.to(h));
      if (by > goal) worst.push({ h, by });
    }
    if (worst.length === 0) {
      // Edges hold, yet a centre may not.
      for (let f = 0; f < mesh.halfEdges; f += 3) {
        if (mesh.isGone(f)) continue;
        const [a, b, c] = [mesh.from[f]!, mesh.from[f + 1]!, mesh.from[f + 2]!];
        if (this.#strayOf(a, b, c) > goal) worst.push({ h: this.#worstEdge(f), by: 0 });
      }
    }
    worst.sort((p, q) => q.by - p.by);
    const limit = mesh.vertices;
    let count = 0;
    for (const { h, by } of worst) {
      const [a, b] = [mesh.from[h]!, mesh.to(h)];
      // A neighbour's split may have put this half-edge elsewhere.
      if (a >= limit || b >= limit || (by > 0 && this.#stray(a, b) <= goal)) continue;
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
    const m = mesh.split(h);
    this.#place(m, x, y, z);
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

  /** Flips edges where the other diagonal strays less, or, where both hold, where it makes better triangles. */
  #flipAll(goal: number): void {
    const mesh = this.#mesh;
    for (let pass = 0; pass < 6; pass++) {
      let count = 0;
      for (let h = 0; h < mesh.halfEdges; h++) {
        if (mesh.isGone(h) || mesh.twin[h]! < h) continue;
        const t = mesh.twin[h]!;
        const [a, b] = [mesh.from[h]!, mesh.from[t]!];
        const [c, d] = [mesh.from[previousOf(h)]!, mesh.from[previousOf(t)]!];
        const [before, after] = [
          Math.max(this.#strayOf(a, b, c), this.#strayOf(b, a, d)),
          Math.max(this.#strayOf(a, d, c), this.#strayOf(b, c, d)),
        ];
        const [shapeBefore, shapeAfter] = [
          Math.min(this.#quality(a, b, c), this.#quality(b, a, d)),
          Math.min(this.#quality(a, d, c), this.#quality(b, c, d)),
        ];
        const nearer =
          after < 0.9 * before && before > 0.3 * goal && shapeAfter > Math.min(leastShape, shapeBefore);
        const better =
          shapeAfter > 1.1 * shapeBefore && after <= Math.max(0.5 * goal, Math.min(before, goal));
        if (!(nearer || better) || shapeAfter <= 0 || mesh.areJoined(c, d)) continue;
        mesh.flip(h);
        count++;
      }
      if (count < 0.003 * mesh.halfEdges) return;
    }
  }

  /**
   * Height over longest side of a triangle, 0 to 0.87; below 0 when it does not face along the surface's normals at
   * its corners.
   */
  #quality(a: number, b: number, c: number): number {
    const { positions: p, normals: n } = this.#mesh;
    const [i, j, k] = [3 * a, 3 * b, 3 * c];
    const [ux, uy, uz] = [p[j]! - p[i]!, p[j + 1]! - p[i + 1]!, p[j + 2]! - p[i + 2]!];
    const [vx, vy, vz] = [p[k]! - p[i]!, p[k + 1]! - p[i + 1]!, p[k + 2]! - p[i + 2]!];
    const [x, y, z] = [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx];
    const area = Math.sqrt(x * x + y * y + z * z);
    if (!(area > 1e-12)) return -1;
    const [wx, wy, wz] = [vx - ux, vy - uy, vz - uz];
    const longest = Math.max(
      ux * ux + uy * uy + uz * uz,
      vx * vx + vy * vy + vz * vz,
      wx * wx + wy * wy + wz * wz,
    );
    const least = leastFacing * area;
    for (const v of [i, j, k]) if (x * n[v]! + y * n[v + 1]! + z * n[v + 2]! < least) return -1;
    return area / longest;
  }

  /** Collapses edges, the shortest first, as far as the surface bears it. Returns their number. */
  #collapseAll(goal: number): number {
    const mesh = this.#mesh;
    const edges: { h: number; length: number }[] = [];
    for (let h = 0; h < mesh.halfEdges; h++) {
      if (mesh.isGone(h) || mesh.twin[h]! < h) continue;
      edges.push({ h, length: this.#length(h) });
    }
    edges.sort((a, b) => a.length - b.length);
    let count = 0;
    for (const { h } of edges) {
      if (mesh.isGone(h)) continue;
      const t = mesh.twin[h]!;
      const [one, other] = [this.#collapseStray(h, goal), this.#collapseStray(t, goal)];
      const best = one <= other ? h : t;
      if (Math.min(one, other) > goal || !mesh.mayCollapse(best)) continue;
      mesh.collapse(best);
      count++;
    }
    return count;
  }

  #length(h: number): number {
    const { positions: p } = this.#mesh;
    const [i, j] = [3 * this.#mesh.from[h]!, 3 * this.#mesh.to(h)];
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
      const [p, q] = [mesh.to(k), mesh.from[previousOf(k)]!];
      if (p !== a && q !== a) {
        if (this.#quality(a, p, q) < leastShape) return Number.POSITIVE_INFINITY;
        worst = Math.max(worst, this.#strayOf(a, p, q));
        if (worst > goal) return worst;
      }
      k = nextOf(mesh.twin[k]!);
    } while (k !== start);
    return worst;
  }

  /** Measures by the field, and splits what strays. Returns how many edges were split. */
  #mend(): number {
    const mesh = this.#mesh;
    const p = mesh.positions;
    const split = new Set<number>();
    const edgeOff = new Map<number, number>();
    for (let h = 0; h < mesh.halfEdges; h++) {
      if (mesh.isGone(h) || mesh.twin[h]! < h) continue;
      const [i, j] = [3 * mesh.from[h]!, 3 * mesh.to(h)];
      const off = this.#off((p[i]! + p[j]!) / 2, (p[i + 1]! + p[j + 1]!) / 2, (p[i + 2]! + p[j + 2]!) / 2);
      edgeOff.set(h, off);
      if (off > this.#tolerance) split.add(h);
    }
    for (let f = 0; f < mesh.halfEdges; f += 3) {
      if (mesh.isGone(f)) continue;
      const [i, j, k] = [3 * mesh.from[f]!, 3 * mesh.from[f + 1]!, 3 * mesh.from[f + 2]!];
      const off = this.#off(
        (p[i]! + p[j]! + p[k]!) / 3,
        (p[i + 1]! + p[j + 1]! + p[k + 1]!) / 3,
        (p[i + 2]! + p[j + 2]! + p[k + 2]!) / 3,
      );
      if (off <= this.#tolerance) continue;
      const offs = [f, f + 1, f + 2].map((h) => edgeOff.get(Math.min(h, mesh.twin[h]!)) ?? 0);
      const worst = f + offs.indexOf(Math.max(...offs));
      split.add(Math.min(worst, mesh.twin[worst]!));
    }
    const limit = mesh.vertices;
    let count = 0;
    for (const h of split) {
      if (mesh.from[h]! >= limit || mesh.to(h) >= limit) continue;
      this.#splitEdge(h);
      count++;
    }
    return count;
  }

  #off(x: number, y: number, z: number): number {
    return Math.abs(this.#field.distance(x, y, z, this.#gradient) - this.#level);
  }
}
