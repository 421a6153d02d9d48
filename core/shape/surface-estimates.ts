import { nextOf, previousOf, type SurfaceMesh } from './surface-mesh.js';

/** Least cosine between a triangle and the surface's normals at its corners. */
const leastFacing = 0.6;

/**
 * What a mesh's corners and the surface's normals at them tell of it, without asking the surface again: how far it
 * strays from edges and triangles, and how well those are made.
 */
export class SurfaceEstimates {
  readonly #mesh: SurfaceMesh;

  constructor(mesh: SurfaceMesh) {
    this.#mesh = mesh;
  }

  /** Signed sagitta of an edge, from the normals at its ends; mm, positive where the surface is round. */
  sagitta(a: number, b: number): number {
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
  stray(a: number, b: number): number {
    const p = this.#mesh.positions;
    const n = this.#mesh.normals;
    const i = 3 * a;
    const j = 3 * b;
    const dx = p[j]! - p[i]!;
    const dy = p[j + 1]! - p[i + 1]!;
    const dz = p[j + 2]! - p[i + 2]!;
    const atA = n[i]! * dx + n[i + 1]! * dy + n[i + 2]! * dz;
    const atB = n[j]! * dx + n[j + 1]! * dy + n[j + 2]! * dz;
    return Math.max(Math.abs(atB - atA) / 8, 0.1 * Math.abs(atA), 0.1 * Math.abs(atB));
  }

  /** How far the surface strays from a triangle, mm: at its edges' middles, and at its centre by the quadratic there. */
  strayOf(a: number, b: number, c: number): number {
    const middle = (4 / 9) * Math.abs(this.sagitta(a, b) + this.sagitta(b, c) + this.sagitta(c, a));
    const edges = Math.max(this.stray(a, b), this.stray(b, c), this.stray(c, a));
    return Math.max(edges, middle);
  }

  /**
   * Height over longest side of a triangle, 0 to 0.87; below 0 when it does not face along the surface's normals at
   * its corners.
   */
  quality(a: number, b: number, c: number): number {
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
      area / Math.max(ux * ux + uy * uy + uz * uz, vx * vx + vy * vy + vz * vz, wx * wx + wy * wy + wz * wz)
    );
  }

  /** The worst triangle round a vertex. */
  leastQuality(vertex: number): number {
    const mesh = this.#mesh;
    const first = mesh.leaving[vertex]!;
    let least = 1;
    let h = first;
    do {
      least = Math.min(least, this.quality(vertex, mesh.to(h), mesh.from[previousOf(h)]!));
      h = nextOf(mesh.twin[h]!);
    } while (h !== first);
    return least;
  }

  /** Whether a triangle faces into the body, by the normals at its corners. */
  isTurned(f: number): boolean {
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

  lengthSquared(h: number): number {
    const p = this.#mesh.positions;
    const i = 3 * this.#mesh.from[h]!;
    const j = 3 * this.#mesh.to(h);
    return (p[j]! - p[i]!) ** 2 + (p[j + 1]! - p[i + 1]!) ** 2 + (p[j + 2]! - p[i + 2]!) ** 2;
  }
}
