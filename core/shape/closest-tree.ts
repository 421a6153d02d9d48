const leafSize = 4;

/** Of a triangle's height or a side's length: a point this near a side is on it, this near a side's end at the corner. */
const tie = 1e-7;

/** Which part of a triangle is nearest: its face, an edge (by its half-edge's place 0 to 2) or a corner. */
export const part = { face: 0, edge: 1, corner: 4 } as const;

/** Boxes round the triangles of a mesh, in Morton order of their centres, to find what lies near points. */
export class ClosestTree {
  readonly #p: ArrayLike<number>;
  readonly #t: Uint32Array;
  readonly #order: Uint32Array;
  readonly #boxes: Float32Array;
  readonly #leaves: number;
  readonly #stack = new Int32Array(256);
  /** What `point` found: the nearest point, the part of the triangle it is on, its squared distance. */
  x = 0;
  y = 0;
  z = 0;
  part = 0;
  square = 0;

  constructor(p: ArrayLike<number>, t: Uint32Array) {
    this.#p = p;
    this.#t = t;
    this.#order = mortonOrder(p, t);
    let leaves = 1;
    while (leaves * leafSize < t.length / 3) leaves *= 2;
    this.#leaves = leaves;
    this.#boxes = this.#fitBoxes();
  }

  /** Visits triangles whose nearest point is within a distance, mm, its own numbers set to what was found. */
  near(x: number, y: number, z: number, within: number, visit: (f: number) => void): void {
    const most = within * within;
    const stack = this.#stack;
    let top = 0;
    stack[top++] = 1;
    while (top > 0) {
      const node = stack[--top]!;
      if (!(this.#squareToBox(node, x, y, z) <= most)) continue;
      if (node < this.#leaves) {
        stack[top++] = 2 * node;
        stack[top++] = 2 * node + 1;
        continue;
      }
      const start = (node - this.#leaves) * leafSize;
      const end = Math.min(start + leafSize, this.#order.length);
      for (let i = start; i < end; i++) {
        const f = this.#order[i]!;
        this.point(f, x, y, z);
        if (this.square <= most) visit(f);
      }
    }
  }

  /** The triangle nearest a point. */
  closest(x: number, y: number, z: number): number {
    const stack = this.#stack;
    let [best, least] = [-1, Number.POSITIVE_INFINITY];
    let top = 0;
    stack[top++] = 1;
    while (top > 0) {
      const node = stack[--top]!;
      if (!(this.#squareToBox(node, x, y, z) < least)) continue;
      if (node < this.#leaves) {
        const a = this.#squareToBox(2 * node, x, y, z);
        const b = this.#squareToBox(2 * node + 1, x, y, z);
        stack[top++] = a < b ? 2 * node + 1 : 2 * node;
        stack[top++] = a < b ? 2 * node : 2 * node + 1;
        continue;
      }
      const start = (node - this.#leaves) * leafSize;
      const end = Math.min(start + leafSize, this.#order.length);
      for (let i = start; i < end; i++) {
        this.point(this.#order[i]!, x, y, z);
        if (this.square < least) [best, least] = [this.#order[i]!, this.square];
      }
    }
    if (best >= 0) this.point(best, x, y, z);
    return best;
  }

  /** The point of a triangle nearest a point (Ericson, Real-Time Collision Detection, 2005, 5.1.5). */
  point(f: number, x: number, y: number, z: number): void {
    const p = this.#p;
    const [a, b, c] = [3 * this.#t[3 * f]!, 3 * this.#t[3 * f + 1]!, 3 * this.#t[3 * f + 2]!];
    const [ux, uy, uz] = [p[b]! - p[a]!, p[b + 1]! - p[a + 1]!, p[b + 2]! - p[a + 2]!];
    const [vx, vy, vz] = [p[c]! - p[a]!, p[c + 1]! - p[a + 1]!, p[c + 2]! - p[a + 2]!];
    const [ax, ay, az] = [x - p[a]!, y - p[a + 1]!, z - p[a + 2]!];
    const [uu, uv, vv] = [
      ux * ux + uy * uy + uz * uz,
      ux * vx + uy * vy + uz * vz,
      vx * vx + vy * vy + vz * vz,
    ];
    const d1 = ux * ax + uy * ay + uz * az;
    const d2 = vx * ax + vy * ay + vz * az;
    let [s, r, part] = [0, 0, 4];
    // Distances along the sides from the other corners.
    const [d3, d4, d5, d6] = [d1 - uu, d2 - uv, d1 - uv, d2 - vv];
    const va = d3 * d6 - d5 * d4;
    const vb = d5 * d2 - d1 * d6;
    const vc = d1 * d4 - d3 * d2;
    if (d1 <= 0 && d2 <= 0) part = 4;
    else if (d3 >= 0 && d4 <= d3) [s, r, part] = [1, 0, 5];
    else if (vc <= 0 && d1 >= 0 && d3 <= 0) [s, r, part] = [d1 / (d1 - d3), 0, 1];
    else if (d6 >= 0 && d5 <= d6) [s, r, part] = [0, 1, 6];
    else if (vb <= 0 && d2 >= 0 && d6 <= 0) [s, r, part] = [0, d2 / (d2 - d6), 3];
    else if (va <= 0 && d4 - d3 >= 0 && d5 - d6 >= 0) {
      r = (d4 - d3) / (d4 - d3 + (d5 - d6));
      [s, part] = [1 - r, 2];
    } else {
      const sum = va + vb + vc;
      [s, r, part] = [vb / sum, vc / sum, 0];
    }
    // Where two parts are as near, rounding must not make neighbours differ: what they share counts.
    if (part === 0) part = r < tie ? 1 : s < tie ? 3 : s + r > 1 - tie ? 2 : 0;
    if (part === 1 || part === 2 || part === 3) {
      if (s > 1 - tie) part = 5;
      else if (r > 1 - tie) part = 6;
      else if (s + r < tie) part = 4;
    }
    this.x = p[a]! + s * ux + r * vx;
    this.y = p[a + 1]! + s * uy + r * vy;
    this.z = p[a + 2]! + s * uz + r * vz;
    this.part = part;
    const [dx, dy, dz] = [x - this.x, y - this.y, z - this.z];
    this.square = dx * dx + dy * dy + dz * dz;
  }

  #squareToBox(node: number, x: number, y: number, z: number): number {
    const b = 6 * node;
    const boxes = this.#boxes;
    const dx = Math.max(boxes[b]! - x, 0, x - boxes[b + 3]!);
    const dy = Math.max(boxes[b + 1]! - y, 0, y - boxes[b + 4]!);
    const dz = Math.max(boxes[b + 2]! - z, 0, z - boxes[b + 5]!);
    return dx * dx + dy * dy + dz * dz;
  }

  #fitBoxes(): Float32Array {
    const leaves = this.#leaves;
    const boxes = new Float32Array(12 * leaves);
    for (let node = 2 * leaves - 1; node >= 1; node--) {
      const b = 6 * node;
      boxes.fill(Number.POSITIVE_INFINITY, b, b + 3);
      boxes.fill(Number.NEGATIVE_INFINITY, b + 3, b + 6);
      if (node >= leaves) {
        const start = (node - leaves) * leafSize;
        const end = Math.min(start + leafSize, this.#order.length);
        for (let i = start; i < end; i++)
          for (let corner = 0; corner < 3; corner++)
            for (let k = 0; k < 3; k++) {
              const value = this.#p[3 * this.#t[3 * this.#order[i]! + corner]! + k]!;
              if (value < boxes[b + k]!) boxes[b + k] = value;
              if (value > boxes[b + 3 + k]!) boxes[b + 3 + k] = value;
            }
        continue;
      }
      for (let k = 0; k < 3; k++) {
        boxes[b + k] = Math.min(boxes[2 * b + k]!, boxes[2 * b + 6 + k]!);
        boxes[b + 3 + k] = Math.max(boxes[2 * b + 3 + k]!, boxes[2 * b + 9 + k]!);
      }
    }
    return boxes;
  }
}

function mortonOrder(p: ArrayLike<number>, t: Uint32Array): Uint32Array {
  const count = t.length / 3;
  const min = [Infinity, Infinity, Infinity];
  const max = [-Infinity, -Infinity, -Infinity];
  for (const v of t)
    for (let k = 0; k < 3; k++) {
      const value = p[3 * v + k]!;
      if (value < min[k]!) min[k] = value;
      if (value > max[k]!) max[k] = value;
    }
  const size = Math.max(max[0]! - min[0]!, max[1]! - min[1]!, max[2]! - min[2]!) || 1;
  const keys = new Float64Array(count);
  for (let f = 0; f < count; f++) {
    let key = 0;
    for (let k = 0; k < 3; k++) {
      const sum = p[3 * t[3 * f]! + k]! + p[3 * t[3 * f + 1]! + k]! + p[3 * t[3 * f + 2]! + k]!;
      let v = Math.min(1023, Math.max(0, Math.floor(((sum / 3 - min[k]!) * 1024) / size)));
      v = (v | (v << 16)) & 0x030000ff;
      v = (v | (v << 8)) & 0x0300f00f;
      v = (v | (v << 4)) & 0x030c30c3;
      v = (v | (v << 2)) & 0x09249249;
      key |= v << k;
    }
    keys[f] = key * 2 ** 22 + f;
  }
  keys.sort();
  return Uint32Array.from(keys, (key) => key % 2 ** 22);
}
