import type { FirstMesh } from './march.js';

/** The half-edge after this one in its triangle, and the one before. */
export const nextOf = (h: number): number => (h % 3 === 2 ? h - 2 : h + 1);
export const previousOf = (h: number): number => (h % 3 === 0 ? h + 2 : h - 1);

/**
 * A closed triangle mesh by half-edges, to be split, flipped and collapsed: half-edge h runs from `from[h]` to
 * `from[nextOf(h)]` in triangle ⌊h/3⌋, `twin[h]` the other way in its neighbour. Removed triangles have `from` −1.
 */
export class SurfaceMesh {
  positions: Float64Array;
  normals: Float64Array;
  vertices: number;
  from: Int32Array;
  twin: Int32Array;
  /** A half-edge that leaves the vertex; −1 for a removed one. */
  leaving: Int32Array;
  /** Three a triangle, removed ones counted. */
  halfEdges: number;
  /** Vertices marked in the last look round one. */
  #marks = new Int32Array(0);
  #mark = 0;

  constructor(first: FirstMesh) {
    this.positions = Float64Array.from(first.positions);
    this.normals = Float64Array.from(first.normals);
    this.vertices = first.positions.length / 3;
    this.from = Int32Array.from(first.triangles);
    this.halfEdges = first.triangles.length;
    this.twin = new Int32Array(this.halfEdges).fill(-1);
    this.leaving = new Int32Array(this.vertices).fill(-1);
    const waiting = new Map<number, number>();
    for (let h = 0; h < this.halfEdges; h++) {
      const [a, b] = [this.from[h]!, this.from[nextOf(h)]!];
      this.leaving[a] = h;
      const other = waiting.get(b * this.vertices + a);
      if (other === undefined) {
        waiting.set(a * this.vertices + b, h);
        continue;
      }
      this.twin[h] = other;
      this.twin[other] = h;
    }
    // All that follows walks round corners, and would not come to an end.
    if (this.twin.includes(-1)) throw new RangeError('the first mesh of the surface is not closed');
  }

  isGone(h: number): boolean {
    return this.from[h]! < 0;
  }

  to(h: number): number {
    return this.from[nextOf(h)]!;
  }

  areJoined(a: number, b: number): boolean {
    const first = this.leaving[a]!;
    let h = first;
    do {
      if (this.to(h) === b) return true;
      h = nextOf(this.twin[h]!);
    } while (h !== first);
    return false;
  }

  /** Puts a new vertex (its position and normal to be written by the caller) into an edge. */
  split(h: number): number {
    const m = this.vertices++;
    const base = this.halfEdges;
    this.halfEdges += 6;
    this.#grow();
    const { from, twin, leaving } = this;
    const t = twin[h]!;
    const [h1, h2, t1, t2] = [nextOf(h), previousOf(h), nextOf(t), previousOf(t)];
    const [b, c, d] = [from[h1]!, from[h2]!, from[t2]!];
    const [k0, k1, k2, l0, l1, l2] = [base, base + 1, base + 2, base + 3, base + 4, base + 5];
    const [beyondH, beyondT] = [twin[h1]!, twin[t2]!];
    from[k0] = m;
    from[k1] = b;
    from[k2] = c;
    from[l0] = b;
    from[l1] = m;
    from[l2] = d;
    from[h1] = m;
    from[t] = m;
    this.#pair(k0, l0);
    this.#pair(h1, k2);
    this.#pair(t2, l1);
    this.#pair(k1, beyondH);
    this.#pair(l2, beyondT);
    leaving[m] = h1;
    leaving[b] = k1;
    leaving[c] = h2;
    leaving[d] = t2;
    leaving[from[t1]!] = t1;
    return m;
  }

  /** Replaces an edge by the other diagonal of its two triangles. The caller has seen that this is sound. */
  flip(h: number): void {
    const { from, twin, leaving } = this;
    const t = twin[h]!;
    const [h1, h2, t1, t2] = [nextOf(h), previousOf(h), nextOf(t), previousOf(t)];
    const [a, b, c, d] = [from[h]!, from[t]!, from[h2]!, from[t2]!];
    const [pastBC, pastCA, pastAD, pastDB] = [twin[h1]!, twin[h2]!, twin[t1]!, twin[t2]!];
    from[h] = d;
    from[h1] = c;
    from[h2] = a;
    from[t] = c;
    from[t1] = d;
    from[t2] = b;
    this.#pair(h1, pastCA);
    this.#pair(h2, pastAD);
    this.#pair(t1, pastDB);
    this.#pair(t2, pastBC);
    leaving[a] = h2;
    leaving[b] = t2;
    leaving[c] = h1;
    leaving[d] = t1;
  }

  /** Whether an edge's end may be drawn into its start without tearing the surface or folding it on itself. */
  mayCollapse(h: number): boolean {
    const a = this.from[h]!;
    const b = this.to(h);
    if (this.#marks.length < this.vertices) this.#marks = new Int32Array(2 * this.vertices);
    const mark = ++this.#mark;
    let [around, common, valence] = [0, 0, 0];
    const firstA = this.leaving[a]!;
    let k = firstA;
    do {
      this.#marks[this.to(k)] = mark;
      around++;
      k = nextOf(this.twin[k]!);
    } while (k !== firstA);
    const firstB = this.leaving[b]!;
    k = firstB;
    do {
      if (this.#marks[this.to(k)] === mark) common++;
      valence++;
      k = nextOf(this.twin[k]!);
    } while (k !== firstB);
    if (common !== 2 || around < 4 || valence < 3) return false;
    return (
      this.#valenceOver(this.from[previousOf(h)]!, 3) &&
      this.#valenceOver(this.from[previousOf(this.twin[h]!)]!, 3)
    );
  }

  #valenceOver(vertex: number, least: number): boolean {
    let count = 0;
    const first = this.leaving[vertex]!;
    let h = first;
    do {
      count++;
      h = nextOf(this.twin[h]!);
    } while (h !== first);
    return count > least;
  }

  /** Draws the end of an edge into its start, which stays where it is. */
  collapse(h: number): void {
    const { from, twin, leaving } = this;
    const t = twin[h]!;
    const [a, b] = [from[h]!, from[t]!];
    const [h1, h2, t1, t2] = [nextOf(h), previousOf(h), nextOf(t), previousOf(t)];
    const [c, d] = [from[h2]!, from[t2]!];
    const first = leaving[b]!;
    let k = first;
    do {
      from[k] = a;
      k = nextOf(twin[k]!);
    } while (k !== first);
    const [x, y, z, w] = [twin[h1]!, twin[h2]!, twin[t2]!, twin[t1]!];
    this.#pair(x, y);
    this.#pair(z, w);
    for (const gone of [h, h1, h2, t, t1, t2]) from[gone] = -1;
    leaving[b] = -1;
    leaving[a] = y;
    leaving[c] = x;
    leaving[d] = w;
  }

  #pair(h: number, k: number): void {
    this.twin[h] = k;
    this.twin[k] = h;
  }

  #grow(): void {
    if (this.halfEdges > this.from.length) {
      this.from = longer(this.from, Int32Array, this.halfEdges);
      this.twin = longer(this.twin, Int32Array, this.halfEdges);
    }
    if (this.vertices > this.leaving.length) {
      this.leaving = longer(this.leaving, Int32Array, this.vertices);
      this.positions = longer(this.positions, Float64Array, 3 * this.vertices);
      this.normals = longer(this.normals, Float64Array, 3 * this.vertices);
    }
  }

  /** What is left, vertices numbered anew. */
  take(): { positions: Float64Array; triangles: Uint32Array } {
    const numbers = new Int32Array(this.vertices).fill(-1);
    const positions: number[] = [];
    const triangles: number[] = [];
    for (let h = 0; h < this.halfEdges; h++) {
      const v = this.from[h]!;
      if (v < 0) continue;
      if (numbers[v]! < 0) {
        numbers[v] = positions.length / 3;
        positions.push(this.positions[3 * v]!, this.positions[3 * v + 1]!, this.positions[3 * v + 2]!);
      }
      triangles.push(numbers[v]!);
    }
    return { positions: Float64Array.from(positions), triangles: Uint32Array.from(triangles) };
  }
}

function longer<T extends Int32Array | Float64Array>(
  array: T,
  make: new (length: number) => T,
  least: number,
): T {
  const grown = new make(Math.max(least, 2 * array.length));
  grown.set(array);
  return grown;
}
