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

  /**
   * How far the surface is from an edge, mm: most at its middle, or beside it where its curvature changes on the way.
   * Beside it the cubics through the distances and slopes at both ends and the middle tell enough; where they come near
   * the tolerance, the field is asked.
   */
  offEdge(a: number, b: number): number {
    const { positions: p, normals: n } = this.#mesh;
    const i = 3 * a;
    const j = 3 * b;
    const ex = p[j]! - p[i]!;
    const ey = p[j + 1]! - p[i + 1]!;
    const ez = p[j + 2]! - p[i + 2]!;
    const signed = this.#signedOff(p[i]! + 0.5 * ex, p[i + 1]! + 0.5 * ey, p[i + 2]! + 0.5 * ez);
    const middle = Math.abs(signed);
    if (middle > this.#tolerance) return middle;
    // Bent one way, an edge strays near an end by at most twice as much as in the middle; in an S by more, and then
    // it stands well off the normals at its ends.
    if (middle < 0.5 * this.#tolerance && this.#shape.stray(a, b) < 0.3 * this.#tolerance) return middle;
    const g = this.#gradient;
    const slope = 0.5 * (g[0]! * ex + g[1]! * ey + g[2]! * ez);
    const atA = 0.5 * (n[i]! * ex + n[i + 1]! * ey + n[i + 2]! * ez);
    const atB = 0.5 * (n[j]! * ex + n[j + 1]! * ey + n[j + 2]! * ez);
    // Where the curvature changes at once the ends do not foretell the middle.
    const smooth =
      Math.abs(signed - (atA - atB) / 4) < foretold * this.#tolerance &&
      Math.abs(slope + (atA + atB) / 4) < 4 * foretold * this.#tolerance;
    const trusted = smooth ? doubtful * this.#tolerance : -1;
    let most = middle;
    for (let k = 0; k < besideMiddle.length; k++) {
      const f = besideMiddle[k]!;
      let off = Math.abs(f < 0.5 ? cubic(2 * f, signed, atA, slope) : cubic(2 - 2 * f, signed, -atB, -slope));
      if (off > trusted) off = this.#off(p[i]! + f * ex, p[i + 1]! + f * ey, p[i + 2]! + f * ez);
      most = Math.max(most, off);
    }
    return most;
  }

  /**
   * How far the surface is from the inside of a triangle, mm: at its centre, and where that or its edges (`near`) come
   * near the tolerance, at six places round it, on the lines from the corners through the centre: by the cubics along
   * those, and where these come near the tolerance, by the field.
   */
  offInside(a: number, b: number, c: number, near: number): number {
    const { positions: p, normals: n } = this.#mesh;
    const i = 3 * a;
    const j = 3 * b;
    const k = 3 * c;
    const x = (p[i]! + p[j]! + p[k]!) / 3;
    const y = (p[i + 1]! + p[j + 1]! + p[k + 1]!) / 3;
    const z = (p[i + 2]! + p[j + 2]! + p[k + 2]!) / 3;
    const signed = this.#signedOff(x, y, z);
    const centre = Math.abs(signed);
    if (Math.max(centre, near) < 0.4 * this.#tolerance || centre > this.#tolerance) return centre;
    const g = this.#gradient;
    const gx = g[0]!;
    const gy = g[1]!;
    const gz = g[2]!;
    const sum = this.#shape.sagitta(a, b) + this.#shape.sagitta(b, c) + this.#shape.sagitta(c, a);
    const smooth = Math.abs(signed + (4 / 9) * sum) < foretold * this.#tolerance;
    const trusted = smooth ? doubtful * this.#tolerance : -1;
    let most = centre;
    for (let corner = 0; corner < 3; corner++) {
      const m = corner === 0 ? i : corner === 1 ? j : k;
      const dx = x - p[m]!;
      const dy = y - p[m + 1]!;
      const dz = z - p[m + 2]!;
      const from = n[m]! * dx + n[m + 1]! * dy + n[m + 2]! * dz;
      const slope = gx * dx + gy * dy + gz * dz;
      for (let l = 0; l < roundCentre.length; l++) {
        const f = roundCentre[l]!;
        let off = Math.abs(cubic(f, signed, from, slope));
        if (off > trusted) off = this.#off(p[m]! + f * dx, p[m + 1]! + f * dy, p[m + 2]! + f * dz);
        most = Math.max(most, off);
      }
    }
    return most;
  }

  #off(x: number, y: number, z: number): number {
    return Math.abs(this.#signedOff(x, y, z));
  }

  #signedOff(x: number, y: number, z: number): number {
    return this.#field.distance(x, y, z, this.#gradient) - this.#level;
  }
}

/** Places along an edge beside its middle, as shares of it. */
const besideMiddle = [0.1, 0.25, 0.75, 0.9] as const;
/** Places on the line from a corner of a triangle to its centre (at 1), before it and past it. */
const roundCentre = [0.6, 1.2] as const;
/** Share of the tolerance over which the cubics are not relied on. */
const doubtful = 0.7;
/** Share of the tolerance by which the middle may differ from what the corners foretell, for the cubics to be relied on. */
const foretold = 0.1;

/** Hermite's cubic from 0 at 0, where its slope is `from`, to `to` at 1, where it is `slope`. */
const cubic = (t: number, to: number, from: number, slope: number): number =>
  t * t * (3 - 2 * t) * to + t * (1 - t) * (1 - t) * from + t * t * (t - 1) * slope;
