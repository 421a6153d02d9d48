import type { Field } from './field.js';
import type { SurfaceEstimates } from './surface-estimates.js';
import type { SurfaceMesh } from './surface-mesh.js';

/** Measures a mesh by the field itself, and puts its vertices on the field's level surface. */
export class SurfaceGauge {
  readonly #mesh: SurfaceMesh;
  readonly #shape: SurfaceEstimates;
  readonly #field: Field;
  readonly #level: number;
  readonly #tolerance: number;
  readonly #gradient = new Float64Array(3);

  /** @param tolerance mm; what clearly keeps it, or clearly does not, is measured at one place only */
  constructor(mesh: SurfaceMesh, shape: SurfaceEstimates, field: Field, level: number, tolerance: number) {
    this.#mesh = mesh;
    this.#shape = shape;
    this.#field = field;
    this.#level = level;
    this.#tolerance = tolerance;
  }

  /** Puts a vertex on the surface, from a point near it, down the field's gradient. */
  place(vertex: number, x0: number, y0: number, z0: number): void {
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

  /** How far the surface is from an edge, mm: most at its middle, or beside it where its curvature changes on the way. */
  offEdge(a: number, b: number): number {
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
    if (middle < 0.5 * this.#tolerance && this.#shape.stray(a, b) < 0.3 * this.#tolerance) return middle;
    return Math.max(Math.max(middle, at(0.25), at(0.75)), at(0.1), at(0.9));
  }

  /**
   * How far the surface is from the inside of a triangle, mm: at its centre, and where that or its edges (`near`) come
   * near the tolerance, at six places round it.
   */
  offInside(a: number, b: number, c: number, near: number): number {
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
    const corners = Math.max(at(0.6, 0.2, 0.2), at(0.2, 0.6, 0.2), at(0.2, 0.2, 0.6));
    const sides = Math.max(at(0.2, 0.4, 0.4), at(0.4, 0.2, 0.4), at(0.4, 0.4, 0.2));
    return Math.max(centre, corners, sides);
  }

  #off(x: number, y: number, z: number): number {
    return Math.abs(this.#field.distance(x, y, z, this.#gradient) - this.#level);
  }
}
