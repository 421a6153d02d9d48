import { SolidError } from '../solid/errors.js';
import type { Box, Vec3 } from '../solid/types.js';
import { boxDistance, boxRound, type Field } from './field.js';

/**
 * Bodies joined, with a fillet of a given radius wherever two or more of them meet: what a ball of that radius cannot
 * reach is filled. With U the set of points at least r from every body, the field is r − (distance to U) near the
 * joints: the true distance of the filleted body, so its parallel body at a stock s has fillets of r − s, and no trace
 * of the bodies' angle or curvature is left in the error. A gap between two bodies narrower than 2 r is filled,
 * and an opening not much wider gets a sharp rim; a hollow within one body is left alone.
 *
 * Distances are true outside, and inside to a depth of about r. The fillet must be larger than any stock, and each
 * body's own hollows (the hole of a ring) wider than the ball: where a body's distance has a crease within r of it, so
 * has the blend.
 *
 * @throws SolidError `bad-size` unless the radius is above 0
 */
export function blendFields(fields: readonly Field[], radius: number): Field {
  if (!(radius > 0 && Number.isFinite(radius)))
    throw new SolidError('bad-size', `a fillet of ${radius} mm cannot be made; it must be above 0`);
  if (fields.length === 0) throw new SolidError('empty-operand', 'a blend of no bodies');
  const solver = new RollingBall(fields, radius);
  return {
    distance: (x, y, z, gradient) => solver.distance(x, y, z, gradient),
    bounds: boxRound(
      fields.flatMap(({ bounds }): Vec3[] => [bounds.min, bounds.max]),
      0,
    ),
    detail: Math.min(1.5 * radius, ...fields.map((field) => field.detail)),
  };
}

/**
 * A body with others cut out of it, the edges where they come out rounded with a radius: the same rolling ball,
 * on the inside. The body's own edges must be rounder than the radius.
 */
export function cutField(body: Field, tools: readonly Field[], radius: number): Field {
  const outside: Field = {
    distance: (x, y, z, gradient) => -flip(body.distance(x, y, z, gradient), gradient),
    bounds: everywhere,
    detail: body.detail,
  };
  const removed = blendFields([outside, ...tools], radius);
  return {
    distance: (x, y, z, gradient) => -flip(removed.distance(x, y, z, gradient), gradient),
    bounds: body.bounds,
    detail: removed.detail,
  };
}

const everywhere: Box = {
  min: [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY],
  max: [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY],
};

function flip(distance: number, gradient: Float64Array): number {
  gradient[0] = -gradient[0]!;
  gradient[1] = -gradient[1]!;
  gradient[2] = -gradient[2]!;
  return distance;
}

/** Deeper than this inside a body, in radii (and at least so many mm), the joints do not matter. */
const deep = 1.5;
const deepLeast = 3;
const mostSteps = 40;
/** mm, of the ball's centre: the distance is then found within its square, 1e-9 mm. */
const closeEnough = 3e-5;

/**
 * Finds the nearest centre of a ball of the radius that touches the bodies without entering one. Holds its scratch
 * numbers, since it is asked some hundred thousand times a mesh.
 */
class RollingBall {
  readonly #fields: readonly Field[];
  readonly #radius: number;
  readonly #boxes: readonly Box[];
  /** Gradients and distances of the bodies at the last point asked. */
  readonly #gradients: readonly Float64Array[];
  readonly #distances: Float64Array;
  /** Which bodies were asked at the centre that touches the nearest alone. */
  readonly #asked: Uint8Array;
  readonly #centre = new Float64Array(3);
  /** Bodies near the centre, and how much each lacks of the radius at the point asked, were it a plane. */
  readonly #active: Int32Array;
  readonly #lacks: Float64Array;

  constructor(fields: readonly Field[], radius: number) {
    this.#fields = fields;
    this.#radius = radius;
    this.#boxes = fields.map((field) => field.bounds);
    this.#gradients = fields.map(() => new Float64Array(3));
    this.#distances = new Float64Array(fields.length);
    this.#asked = new Uint8Array(fields.length);
    this.#active = new Int32Array(fields.length);
    this.#lacks = new Float64Array(fields.length);
  }

  distance(x: number, y: number, z: number, out: Float64Array): number {
    const r = this.#radius;
    const nearest = this.#nearest(x, y, z);
    const d = this.#distances[nearest]!;
    const g = this.#gradients[nearest]!;
    out[0] = g[0]!;
    out[1] = g[1]!;
    out[2] = g[2]!;
    if (this.#fields.length === 1 || d >= r || d < -Math.max(deepLeast, deep * r)) return d;
    // The ball that touches the nearest body alone: does it enter another?
    const c = this.#centre;
    c[0] = x + (r - d) * g[0]!;
    c[1] = y + (r - d) * g[1]!;
    c[2] = z + (r - d) * g[2]!;
    if (!this.#entered(c, nearest)) return d;
    return this.#roll(x, y, z, d, out);
  }

  /** The body nearest to a point; its distance and gradient are kept. Bodies beyond their boxes are not asked. */
  #nearest(x: number, y: number, z: number): number {
    let best = -1;
    let least = Number.POSITIVE_INFINITY;
    for (let i = 0; i < this.#fields.length; i++) {
      if (boxDistance(this.#boxes[i]!, x, y, z) >= least) continue;
      const d = this.#fields[i]!.distance(x, y, z, this.#gradients[i]!);
      this.#distances[i] = d;
      if (d < least) {
        least = d;
        best = i;
      }
    }
    return best;
  }

  /** Whether the ball enters a body but one; what is asked is kept. */
  #entered(c: Float64Array, but: number): boolean {
    let entered = false;
    this.#asked.fill(0);
    for (let i = 0; i < this.#fields.length; i++) {
      if (i === but || boxDistance(this.#boxes[i]!, c[0]!, c[1]!, c[2]!) >= this.#radius) continue;
      const distance = this.#fields[i]!.distance(c[0]!, c[1]!, c[2]!, this.#gradients[i]!);
      this.#distances[i] = distance;
      this.#asked[i] = 1;
      if (distance < this.#radius - 1e-12) entered = true;
    }
    return entered;
  }

  /**
   * r less the distance to the nearest point at least r from every body, by successive linearisation: with the bodies
   * taken as planes at the last guess, that point is the nearest on an active set of at most three.
   */
  #roll(x: number, y: number, z: number, d: number, out: Float64Array): number {
    const r = this.#radius;
    const c = this.#centre;
    let reach = 0;
    // The last guess, and the step the planes took from it.
    let lastX = 0;
    let lastY = 0;
    let lastZ = 0;
    let stepX = 0;
    let stepY = 0;
    let stepZ = 0;
    let last = 0;
    for (let step = 0; step < mostSteps; step++) {
      const count = this.#linearise(x, y, z, step === 0);
      const ox = c[0]!;
      const oy = c[1]!;
      const oz = c[2]!;
      this.#nearestOnPlanes(count, x, y, z);
      const mx = c[0]! - ox;
      const my = c[1]! - oy;
      const mz = c[2]! - oz;
      const moved = Math.sqrt(mx * mx + my * my + mz * mz);
      reach = Math.sqrt((c[0]! - x) ** 2 + (c[1]! - y) ** 2 + (c[2]! - z) ** 2);
      // The distance is flat in the place along the crease, and the planes' error squares at each step.
      if (moved < closeEnough) break;
      if (moved < last) {
        // Along the crease the steps shrink at an even rate, the bodies' curvature: on to where they lead (secants).
        const ax = mx - stepX;
        const ay = my - stepY;
        const az = mz - stepZ;
        const rate = (mx * ax + my * ay + mz * az) / (ax * ax + ay * ay + az * az);
        const bx = rate * (ax + ox - lastX);
        const by = rate * (ay + oy - lastY);
        const bz = rate * (az + oz - lastZ);
        if (bx * bx + by * by + bz * bz < 9 * moved * moved) set(c, c[0]! - bx, c[1]! - by, c[2]! - bz);
      }
      lastX = ox;
      lastY = oy;
      lastZ = oz;
      stepX = mx;
      stepY = my;
      stepZ = mz;
      last = moved;
    }
    // Between faces that leave no room for the ball: filled.
    if (!(reach < 50 * r)) return Math.min(d, -r);
    const value = r - reach;
    if (value > d + 1e-9) return d;
    if (reach > 1e-12) {
      out[0] = (c[0]! - x) / reach;
      out[1] = (c[1]! - y) / reach;
      out[2] = (c[2]! - z) / reach;
    }
    return value;
  }

  /** Asks the bodies at the centre, but those just asked there; returns how many are near it. */
  #linearise(x: number, y: number, z: number, first: boolean): number {
    const c = this.#centre;
    const dx = x - c[0]!;
    const dy = y - c[1]!;
    const dz = z - c[2]!;
    let count = 0;
    for (let i = 0; i < this.#fields.length; i++) {
      if (boxDistance(this.#boxes[i]!, c[0]!, c[1]!, c[2]!) >= 2 * this.#radius) continue;
      const g = this.#gradients[i]!;
      const distance =
        first && this.#asked[i] === 1
          ? this.#distances[i]!
          : this.#fields[i]!.distance(c[0]!, c[1]!, c[2]!, g);
      if (distance >= 2 * this.#radius) continue;
      this.#lacks[i] = this.#radius - distance - g[0]! * dx - g[1]! * dy - g[2]! * dz;
      this.#active[count++] = i;
    }
    return count;
  }

  /** Writes the point nearest to (x, y, z) beyond all planes over the centre. */
  #nearestOnPlanes(count: number, x: number, y: number, z: number): void {
    const lacks = this.#lacks;
    const gradients = this.#gradients;
    const c = this.#centre;
    let i = -1;
    for (let k = 0; k < count; k++) if (i < 0 || lacks[this.#active[k]!]! > lacks[i]!) i = this.#active[k]!;
    if (i < 0 || lacks[i]! <= 0) return void set(c, x, y, z);
    let pullI = lacks[i]!;
    let pullJ = 0;
    let j = this.#mostLacking(count, i, -1, pullI, 0);
    if (j >= 0) {
      const dots = dotOf(gradients[i]!, gradients[j]!);
      const det = 1 - dots * dots;
      if (det < 1e-8) j = -1;
      else {
        pullI = (lacks[i]! - dots * lacks[j]!) / det;
        pullJ = (lacks[j]! - dots * lacks[i]!) / det;
        if (pullI < 0) {
          // The second plane alone keeps the point clear of the first.
          i = j;
          pullI = lacks[j]!;
          pullJ = 0;
          j = -1;
        }
      }
    }
    const k = j >= 0 ? this.#mostLacking(count, i, j, pullI, pullJ) : -1;
    if (k >= 0 && this.#corner(i, j, k, x, y, z)) return;
    const a = gradients[i]!;
    const b = gradients[j >= 0 ? j : i]!;
    set(
      c,
      x + pullI * a[0]! + pullJ * b[0]!,
      y + pullI * a[1]! + pullJ * b[1]!,
      z + pullI * a[2]! + pullJ * b[2]!,
    );
  }

  /** The plane that a point pulled off two others lacks most of; −1 for none. */
  #mostLacking(count: number, i: number, j: number, pullI: number, pullJ: number): number {
    let worst = -1;
    let most = 1e-12;
    for (let n = 0; n < count; n++) {
      const k = this.#active[n]!;
      if (k === i || k === j) continue;
      const g = this.#gradients[k]!;
      const by =
        this.#lacks[k]! -
        pullI * dotOf(g, this.#gradients[i]!) -
        (j < 0 ? 0 : pullJ * dotOf(g, this.#gradients[j]!));
      if (by > most) {
        most = by;
        worst = k;
      }
    }
    return worst;
  }

  /** Writes the corner of three planes over the centre, by Cramer's rule; false when they make none that holds. */
  #corner(i: number, j: number, k: number, x: number, y: number, z: number): boolean {
    const [a, b, c] = [this.#gradients[i]!, this.#gradients[j]!, this.#gradients[k]!];
    const [p, q, s] = [dotOf(a, b), dotOf(a, c), dotOf(b, c)];
    const [u, v, w] = [this.#lacks[i]!, this.#lacks[j]!, this.#lacks[k]!];
    const det = 1 + 2 * p * q * s - p * p - q * q - s * s;
    if (det < 1e-8) return false;
    const pullA = (u * (1 - s * s) - v * (p - q * s) + w * (p * s - q)) / det;
    const pullB = (v * (1 - q * q) - u * (p - q * s) + w * (p * q - s)) / det;
    const pullC = (w * (1 - p * p) + u * (p * s - q) + v * (p * q - s)) / det;
    if (pullA < 0 || pullB < 0 || pullC < 0) return false;
    set(
      this.#centre,
      x + pullA * a[0]! + pullB * b[0]! + pullC * c[0]!,
      y + pullA * a[1]! + pullB * b[1]! + pullC * c[1]!,
      z + pullA * a[2]! + pullB * b[2]! + pullC * c[2]!,
    );
    return true;
  }
}

const dotOf = (a: Float64Array, b: Float64Array): number => a[0]! * b[0]! + a[1]! * b[1]! + a[2]! * b[2]!;

function set(to: Float64Array, x: number, y: number, z: number): void {
  to[0] = x;
  to[1] = y;
  to[2] = z;
}
