import type { Vec3 } from '../../solid/types.js';

/** Symmetric 3 × 3: xx, yy, zz, xy, yz, zx. */
export type Symmetric3 = [number, number, number, number, number, number];

/** Adds a vector's product with itself, times a weight. */
export function addSquare(m: Symmetric3, [x, y, z]: Vec3, weight: number): void {
  m[0] += weight * x * x;
  m[1] += weight * y * y;
  m[2] += weight * z * z;
  m[3] += weight * x * y;
  m[4] += weight * y * z;
  m[5] += weight * z * x;
}

export interface Eigen3 {
  /** Greatest first. */
  readonly values: Vec3;
  readonly vectors: readonly [Vec3, Vec3, Vec3];
}

/** Eigenvalues and unit eigenvectors by cyclic Jacobi rotations (Golub and Van Loan, "Matrix computations", 8.5). */
export function eigenOf([xx, yy, zz, xy, yz, zx]: Symmetric3): Eigen3 {
  const a = [xx, xy, zx, xy, yy, yz, zx, yz, zz];
  const v = [1, 0, 0, 0, 1, 0, 0, 0, 1];
  for (let sweep = 0; sweep < 12; sweep++) {
    const off = a[1]! * a[1]! + a[2]! * a[2]! + a[5]! * a[5]!;
    if (!(off > 1e-30 * (a[0]! * a[0]! + a[4]! * a[4]! + a[8]! * a[8]!))) break;
    rotate(a, v, 0, 1);
    rotate(a, v, 0, 2);
    rotate(a, v, 1, 2);
  }
  const found = [0, 1, 2]
    .map((k) => ({ value: a[4 * k]!, vector: [v[k]!, v[3 + k]!, v[6 + k]!] as Vec3 }))
    .sort((p, q) => q.value - p.value);
  const [first, second, third] = found as [(typeof found)[0], (typeof found)[0], (typeof found)[0]];
  return {
    values: [first.value, second.value, third.value],
    vectors: [first.vector, second.vector, third.vector],
  };
}

/** One rotation that empties a[p][q]. */
function rotate(a: number[], v: number[], p: number, q: number): void {
  const apq = a[3 * p + q]!;
  if (apq === 0) return;
  const theta = (a[4 * q]! - a[4 * p]!) / (2 * apq);
  const t = (theta >= 0 ? 1 : -1) / (Math.abs(theta) + Math.sqrt(theta * theta + 1));
  const c = 1 / Math.sqrt(t * t + 1);
  const s = t * c;
  for (let k = 0; k < 3; k++) {
    const akp = a[3 * k + p]!;
    const akq = a[3 * k + q]!;
    a[3 * k + p] = c * akp - s * akq;
    a[3 * k + q] = s * akp + c * akq;
  }
  for (let k = 0; k < 3; k++) {
    const apk = a[3 * p + k]!;
    const aqk = a[3 * q + k]!;
    a[3 * p + k] = c * apk - s * aqk;
    a[3 * q + k] = s * apk + c * aqk;
    const vkp = v[3 * k + p]!;
    const vkq = v[3 * k + q]!;
    v[3 * k + p] = c * vkp - s * vkq;
    v[3 * k + q] = s * vkp + c * vkq;
  }
}

/** Sums for a linear least-squares fit of `size` unknowns. */
export class NormalEquations {
  readonly size: number;
  readonly #a: Float64Array;
  readonly #b: Float64Array;

  constructor(size: number) {
    this.size = size;
    this.#a = new Float64Array(size * size);
    this.#b = new Float64Array(size);
  }

  add(row: ArrayLike<number>, right: number): void {
    for (let i = 0; i < this.size; i++) {
      for (let j = 0; j <= i; j++) this.#a[i * this.size + j]! += row[i]! * row[j]!;
      this.#b[i]! += row[i]! * right;
    }
  }

  /** By Cholesky's factors; an unknown that the rest already explain stays 0. */
  solve(): Float64Array {
    const { size: n } = this;
    const l = this.#a.slice();
    const isUsed = new Uint8Array(n);
    for (let i = 0; i < n; i++) {
      let pivot = l[i * n + i]!;
      const whole = pivot;
      for (let k = 0; k < i; k++) pivot -= l[i * n + k]! ** 2;
      if (pivot > 1e-11 * whole) isUsed[i] = 1;
      const root = isUsed[i] ? Math.sqrt(pivot) : 0;
      l[i * n + i] = root;
      for (let j = i + 1; j < n; j++) {
        let sum = l[j * n + i]!;
        for (let k = 0; k < i; k++) sum -= l[i * n + k]! * l[j * n + k]!;
        l[j * n + i] = isUsed[i] ? sum / root : 0;
      }
    }
    const x = this.#b.slice();
    for (let i = 0; i < n; i++) {
      for (let k = 0; k < i; k++) x[i]! -= l[i * n + k]! * x[k]!;
      x[i] = isUsed[i] ? x[i]! / l[i * n + i]! : 0;
    }
    for (let i = n - 1; i >= 0; i--) {
      for (let k = i + 1; k < n; k++) x[i]! -= l[k * n + i]! * x[k]!;
      x[i] = isUsed[i] ? x[i]! / l[i * n + i]! : 0;
    }
    return x;
  }
}
