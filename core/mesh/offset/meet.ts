/** Planes n · x = d about a vertex, and where they meet. */
export class Planes {
  size = 0;
  readonly n = new Float64Array(3 * 256);
  readonly d = new Float64Array(256);
  readonly weight = new Float64Array(256);
  /** Where `meet` found them to meet, and by how much the worst is missed, mm. */
  readonly at = new Float64Array(3);
  missed = 0;
  readonly #m = new Float64Array(12);
  readonly #step = new Float64Array(3);

  clear(): void {
    this.size = 0;
  }

  /** Planes alike are taken as one, so that a face cut into many triangles weighs no more than one of few. */
  add(nx: number, ny: number, nz: number, d: number, weight: number): void {
    const { n } = this;
    for (let i = 0; i < this.size; i++) {
      if (n[3 * i]! * nx + n[3 * i + 1]! * ny + n[3 * i + 2]! * nz < alike || Math.abs(this.d[i]! - d) > 1e-5)
        continue;
      this.weight[i] = Math.min(1, this.weight[i]! + weight);
      return;
    }
    if (this.size === 256) return;
    const i = this.size++;
    n[3 * i] = nx;
    n[3 * i + 1] = ny;
    n[3 * i + 2] = nz;
    this.d[i] = d;
    this.weight[i] = Math.min(1, weight);
  }

  /** The point of least squares, the nearest to the origin where there are several. */
  meet(damping = 1e-8): void {
    const { at } = this;
    at.fill(0);
    // The second time over what the first left, which undoes what its damping held back.
    for (let pass = 0; pass < 2; pass++) {
      const m = this.#m.fill(0);
      for (let i = 0; i < this.size; i++) {
        const w = Math.max(0.05, this.weight[i]!);
        const d =
          this.d[i]! - this.n[3 * i]! * at[0]! - this.n[3 * i + 1]! * at[1]! - this.n[3 * i + 2]! * at[2]!;
        for (let r = 0; r < 3; r++) {
          const wn = w * this.n[3 * i + r]!;
          for (let c = r; c < 3; c++) m[4 * r + c]! += wn * this.n[3 * i + c]!;
          m[4 * r + 3]! += wn * d;
        }
      }
      // A touch of least length keeps what the planes leave open at nothing.
      const slight = damping * (m[0]! + m[5]! + m[10]!);
      for (let r = 0; r < 3; r++) {
        m[5 * r]! += slight;
        for (let c = 0; c < r; c++) m[4 * r + c] = m[4 * c + r]!;
      }
      eliminate(m, this.#step);
      for (let k = 0; k < 3; k++) at[k]! += this.#step[k]!;
    }
    const [x, y, z] = [this.at[0]!, this.at[1]!, this.at[2]!];
    this.missed = 0;
    for (let i = 0; i < this.size; i++) {
      const off = this.n[3 * i]! * x + this.n[3 * i + 1]! * y + this.n[3 * i + 2]! * z - this.d[i]!;
      this.missed = Math.max(this.missed, Math.abs(off));
    }
  }
}

/** Cosine of 0.4°: moving two such planes as one errs by 6e-6 of the amount. */
const alike = 0.999975;

/** Solves three equations, a row of four numbers each, symmetric and positive, the largest pivot first. */
function eliminate(m: Float64Array, into: Float64Array): void {
  const p = m[0]! >= m[5]! && m[0]! >= m[10]! ? 0 : m[5]! >= m[10]! ? 1 : 2;
  let q = (p + 1) % 3;
  let r = (p + 2) % 3;
  for (const i of [q, r]) {
    const f = m[4 * i + p]! / m[5 * p]!;
    for (let c = 0; c < 4; c++) m[4 * i + c]! -= f * m[4 * p + c]!;
  }
  if (m[5 * r]! > m[5 * q]!) [q, r] = [r, q];
  const f = m[4 * r + q]! / m[5 * q]!;
  m[5 * r]! -= f * m[4 * q + r]!;
  m[4 * r + 3]! -= f * m[4 * q + 3]!;
  into[r] = m[4 * r + 3]! / m[5 * r]!;
  into[q] = (m[4 * q + 3]! - m[4 * q + r]! * into[r]!) / m[5 * q]!;
  into[p] = (m[4 * p + 3]! - m[4 * p + q]! * into[q]! - m[4 * p + r]! * into[r]!) / m[5 * p]!;
}
