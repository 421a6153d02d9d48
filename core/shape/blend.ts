import { SolidError } from '../solid/errors.js';
import type { Box, Vec3 } from '../solid/types.js';
import { boxDistance, boxRound, type Field } from './field.js';

/**
 * Bodies joined, with a fillet of a given radius wherever two or more of them meet: what a ball of that radius cannot
 * reach is filled. With U the set of points at least r from every body, the field is r − (distance to U) near the
 * joints: the true distance of the filleted body, so its parallel body at a stock s has fillets of r − s, and no trace
 * of the bodies' angle or curvature is left in the error. A gap between two bodies narrower than 2 r is filled;
 * a hollow within one body is not.
 *
 * Distances are true outside, and inside to a depth of about r. The fillet must be larger than any stock.
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
    detail: Math.min(radius, ...fields.map((field) => field.detail)),
  };
}

/**
 * A body with others cut out of it, the edges where they come out rounded with a radius: the same rolling ball,
 * on the inside.
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
const closeEnough = 1e-10;

/** Finds the nearest centre of a ball of the radius that touches the bodies without entering one. */
class RollingBall {
  readonly #fields: readonly Field[];
  readonly #radius: number;
  readonly #boxes: readonly Box[];
  /** Gradients and distances of the bodies at the last point asked. */
  readonly #gradients: readonly Float64Array[];
  readonly #distances: Float64Array;
  readonly #centre = new Float64Array(3);

  constructor(fields: readonly Field[], radius: number) {
    this.#fields = fields;
    this.#radius = radius;
    this.#boxes = fields.map((field) => field.bounds);
    this.#gradients = fields.map(() => new Float64Array(3));
    this.#distances = new Float64Array(fields.length);
  }

  distance(x: number, y: number, z: number, out: Float64Array): number {
    const r = this.#radius;
    const nearest = this.#nearest(x, y, z);
    const d = this.#distances[nearest]!;
    const g = this.#gradients[nearest]!;
    out.set(g);
    if (this.#fields.length === 1 || d >= r || d < -Math.max(deepLeast, deep * r)) return d;
    // The ball that touches the nearest body alone: does it enter another?
    const c = this.#centre;
    c[0] = x + (r - d) * g[0]!;
    c[1] = y + (r - d) * g[1]!;
    c[2] = z + (r - d) * g[2]!;
    if (!this.#entered(c, nearest)) return d;
    return this.#roll(x, y, z, nearest, d, out);
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

  #entered(c: Float64Array, but: number): boolean {
    for (let i = 0; i < this.#fields.length; i++) {
      if (i === but || boxDistance(this.#boxes[i]!, c[0]!, c[1]!, c[2]!) >= this.#radius) continue;
      if (this.#fields[i]!.distance(c[0]!, c[1]!, c[2]!, this.#gradients[i]!) < this.#radius - 1e-12)
        return true;
    }
    return false;
  }

  /**
   * The nearest point to (x, y, z) at least r from every body, by successive linearisation: with the bodies' distances
   * taken as planes at the last guess, the nearest point is that of an active set of at most three planes.
   */
  #roll(x: number, y: number, z: number, nearest: number, d: number, out: Float64Array): number {
    const r = this.#radius;
    const c = this.#centre;
    let previous = Number.POSITIVE_INFINITY;
    let reach = 0;
    for (let step = 0; step < mostSteps; step++) {
      const active: number[] = [];
      for (let i = 0; i < this.#fields.length; i++) {
        if (boxDistance(this.#boxes[i]!, c[0]!, c[1]!, c[2]!) >= 2 * r) continue;
        const distance = this.#fields[i]!.distance(c[0]!, c[1]!, c[2]!, this.#gradients[i]!);
        this.#distances[i] = distance;
        if (distance < 2 * r) active.push(i);
      }
      const [ox, oy, oz] = [c[0]!, c[1]!, c[2]!];
      nearestOnPlanes(active, this.#gradients, this.#distances, r, [x, y, z], c);
      const moved = Math.hypot(c[0]! - ox, c[1]! - oy, c[2]! - oz);
      reach = Math.hypot(c[0]! - x, c[1]! - y, c[2]! - z);
      if (moved < closeEnough) break;
      // The distance is flat in the place along the crease: it is found long before the place itself.
      if (moved < 1e-5 && Math.abs(reach - previous) < closeEnough) break;
      previous = reach;
    }
    if (!(reach < 50 * r)) {
      // Between faces that leave no room for the ball: filled.
      out.set(this.#gradients[nearest]!);
      return Math.min(d, -r);
    }
    const value = r - reach;
    if (value > d + 1e-9) return d;
    if (reach > 1e-12) {
      out[0] = (c[0]! - x) / reach;
      out[1] = (c[1]! - y) / reach;
      out[2] = (c[2]! - z) / reach;
    }
    return value;
  }
}

/**
 * The point nearest to p with gᵢ·(q − c) ≥ r − dᵢ for all planes i, written over c: adds the most violated plane and
 * drops those that pull, over at most three at once.
 */
function nearestOnPlanes(
  planes: readonly number[],
  gradients: readonly Float64Array[],
  distances: Float64Array,
  r: number,
  p: Vec3,
  c: Float64Array,
): void {
  const base: Vec3 = [c[0]!, c[1]!, c[2]!];
  const goal = (i: number): number => {
    const g = gradients[i]!;
    return r - distances[i]! + g[0]! * base[0] + g[1]! * base[1] + g[2]! * base[2];
  };
  const lack = (i: number, q: Vec3 | Float64Array): number => {
    const g = gradients[i]!;
    return goal(i) - g[0]! * q[0]! - g[1]! * q[1]! - g[2]! * q[2]!;
  };
  let chosen: number[] = [];
  c.set(p);
  for (let round = 0; round < 8; round++) {
    let worst = -1;
    let most = 1e-12;
    for (const i of planes) {
      if (chosen.includes(i)) continue;
      const by = lack(i, c);
      if (by > most) {
        most = by;
        worst = i;
      }
    }
    if (worst < 0 || chosen.length === 3) return;
    chosen = [...chosen, worst];
    for (let tries = 0; tries < 3; tries++) {
      const pull = solvePulls(chosen, gradients, (i) => lack(i, p));
      if (!pull) {
        // Two planes alike: the later one stands for both.
        chosen = [worst];
        continue;
      }
      const drop = pull.findIndex((value) => value < -1e-12);
      if (drop >= 0 && chosen.length > 1) {
        chosen = chosen.filter((_, k) => k !== drop);
        continue;
      }
      c.set(p);
      chosen.forEach((i, k) => {
        const g = gradients[i]!;
        for (let axis = 0; axis < 3; axis++) c[axis] = c[axis]! + pull[k]! * g[axis]!;
      });
      break;
    }
  }
}

/** λ of Σⱼ λⱼ gᵢ·gⱼ = lackᵢ for up to three planes; null when planes are alike. */
function solvePulls(
  chosen: readonly number[],
  gradients: readonly Float64Array[],
  lack: (i: number) => number,
): number[] | null {
  const n = chosen.length;
  const rows = chosen.map((i) => [
    ...chosen.map((j) => {
      const [a, b] = [gradients[i]!, gradients[j]!];
      return a[0]! * b[0]! + a[1]! * b[1]! + a[2]! * b[2]!;
    }),
    lack(i),
  ]);
  for (let k = 0; k < n; k++) {
    // Positive definite: no pivoting needed.
    const pivot = rows[k]![k]!;
    if (pivot < 1e-8) return null;
    for (let i = k + 1; i < n; i++) {
      const f = rows[i]![k]! / pivot;
      for (let j = k; j <= n; j++) rows[i]![j]! -= f * rows[k]![j]!;
    }
  }
  const found = new Array<number>(n).fill(0);
  for (let k = n - 1; k >= 0; k--) {
    let sum = rows[k]![n]!;
    for (let j = k + 1; j < n; j++) sum -= rows[k]![j]! * found[j]!;
    found[k] = sum / rows[k]![k]!;
  }
  return found;
}
