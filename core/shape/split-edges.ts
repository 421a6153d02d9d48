import { ToleranceError } from '../solid/errors.js';
import type { SurfaceEstimates } from './surface-estimates.js';
import type { SurfaceGauge } from './surface-gauge.js';
import { nextOf, previousOf, type SurfaceMesh } from './surface-mesh.js';
import type { TouchedEdges } from './touched-edges.js';

/** More than any smooth piece of hardware needs: a crease would be split for ever. */
const mostVertices = 120_000;
/** Triangles of a lesser height to their longest side are got rid of, where that can be. */
export const needle = 0.06;

/** Splits edges of a mesh at new vertices on the surface. */
export class EdgeSplitter {
  readonly #mesh: SurfaceMesh;
  readonly #shape: SurfaceEstimates;
  readonly #gauge: SurfaceGauge;
  readonly #touched: TouchedEdges;

  constructor(mesh: SurfaceMesh, shape: SurfaceEstimates, gauge: SurfaceGauge, touched: TouchedEdges) {
    this.#mesh = mesh;
    this.#shape = shape;
    this.#gauge = gauge;
    this.#touched = touched;
  }

  /** Splits the listed edges, but those that an earlier split has put elsewhere or done away with. Returns their number. */
  splitAll(edges: readonly number[]): number {
    const mesh = this.#mesh;
    const limit = mesh.vertices;
    let count = 0;
    for (const h of edges) {
      if (mesh.isGone(h) || mesh.from[h]! >= limit || mesh.to(h) >= limit) continue;
      this.#split(h);
      count++;
    }
    return count;
  }

  #split(h: number): void {
    const mesh = this.#mesh;
    const [a, b] = [3 * mesh.from[h]!, 3 * mesh.to(h)];
    const { positions: p, normals: n } = mesh;
    // Begin where the surface is expected, over the middle.
    const lift = this.#shape.sagitta(a / 3, b / 3);
    let [nx, ny, nz] = [n[a]! + n[b]!, n[a + 1]! + n[b + 1]!, n[a + 2]! + n[b + 2]!];
    const length = Math.sqrt(nx * nx + ny * ny + nz * nz) || 1;
    [nx, ny, nz] = [nx / length, ny / length, nz / length];
    const x = (p[a]! + p[b]!) / 2 + lift * nx;
    const y = (p[a + 1]! + p[b + 1]!) / 2 + lift * ny;
    const z = (p[a + 2]! + p[b + 2]!) / 2 + lift * nz;
    if (mesh.vertices > mostVertices)
      throw new ToleranceError(
        `a surface needs more than ${mostVertices} corners to keep its tolerance near ` +
          `${x.toFixed(2)}, ${y.toFixed(2)}, ${z.toFixed(2)}: it has a crease there, or the tolerance is too fine`,
      );
    const m = mesh.split(h);
    this.#gauge.place(m, x, y, z);
    if (this.#shape.leastQuality(m) <= 0 && this.#flipInstead(h)) return;
    this.#touched.addRound(m);
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
    if (Math.min(this.#shape.quality(a, b, c), this.#shape.quality(b, a, d)) > needle || mesh.areJoined(c, d))
      return false;
    if (Math.min(this.#shape.quality(a, d, c), this.#shape.quality(b, c, d)) <= 0) return false;
    mesh.collapse(h);
    let edge = mesh.leaving[a]!;
    while (mesh.to(edge) !== b) edge = nextOf(mesh.twin[edge]!);
    mesh.flip(edge);
    this.#touched.add(edge);
    this.#touched.addBeside(edge);
    return true;
  }
}
