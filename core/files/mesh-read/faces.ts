import { FormatError } from '../format-error.js';
import type { CutBudget } from './bays.js';
import { cutFace } from './cut-face.js';
import { growingIndices } from './growing.js';
import type { MeshLimits } from './limits.js';
import { checkNotEmpty, checkTriangles } from './too-large.js';

/** Faces of three corners and more, as OBJ and PLY have them, on their way to triangles. */
export class Faces {
  readonly #corners = growingIndices();
  readonly #sizes = growingIndices();
  readonly #limits: MeshLimits;
  #triangles = 0;
  #size = 0;
  #greatest = -1;
  /** Number of the face, from 1, or line, that names the greatest vertex. */
  #greatestAt = 0;

  constructor(limits: MeshLimits) {
    this.#limits = limits;
  }

  /** Faces so far. */
  get count(): number {
    return this.#sizes.length;
  }

  /** @param vertex from 0; that it exists is asked at the end, since faces may come first */
  addCorner(vertex: number, at: number): void {
    if (vertex > this.#greatest) {
      this.#greatest = vertex;
      this.#greatestAt = at;
    }
    this.#corners.push(Math.min(vertex, 0xffffffff));
    this.#size++;
    if (this.#size > 3) checkTriangles(this.#triangles + this.#size - 2, this.#limits);
  }

  /** @throws FormatError for a face of fewer than three corners. */
  endFace(where: () => string): void {
    if (this.#size < 3) {
      throw new FormatError(
        'mesh-face',
        `${where()}: a face with ${this.#size} corners.`,
        'A face has three corners or more: export the file again.',
      );
    }
    this.#triangles += this.#size - 2;
    checkTriangles(this.#triangles, this.#limits);
    this.#sizes.push(this.#size);
    this.#size = 0;
  }

  /**
   * The triangles, face by face, turned as their face is.
   *
   * @throws FormatError for no faces, a corner that names no vertex, a face that is too involved.
   */
  triangles(positions: Float64Array, whereOf: (at: number) => string): Uint32Array {
    checkNotEmpty(this.#triangles, positions.length > 0 ? ', only points or lines' : '');
    const vertices = positions.length / 3;
    if (this.#greatest >= vertices) {
      throw new FormatError(
        'mesh-index',
        `${whereOf(this.#greatestAt)}: a face names vertex ${this.#greatest + 1}, but the file has ${vertices}.`,
        'The file is cut short or damaged: copy or export it again.',
      );
    }
    const corners = this.#corners.take();
    if (corners.length === 3 * this.count) return corners;
    const triangles = new Uint32Array(3 * this.#triangles);
    const budget: CutBudget = { left: this.#limits.cutting };
    let from = 0;
    let to = 0;
    this.#sizes.take().forEach((size, face) => {
      const loop = corners.subarray(from, from + size);
      from += size;
      to = cutFace(positions, loop, triangles, to, budget);
      if (budget.left < 0) {
        throw new FormatError(
          'mesh-face',
          `Face ${face + 1} has ${size} corners, too many in too many bays to be cut into triangles.`,
          'Have the faces cut into triangles when the file is exported.',
        );
      }
    });
    return triangles;
  }
}
