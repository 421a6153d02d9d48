import { SolidError } from '../solid/errors.js';
import type { Vec3 } from '../solid/types.js';
import { boxRound, type Field } from './field.js';
import { distanceOf, dot, minus, unit } from './vector.js';

/** A ball. */
export const ballField = (centre: Vec3, radius: number): Field => coneField(centre, radius, centre, radius);

/** A round bar between two points, with half balls at its ends. */
export const barField = (from: Vec3, to: Vec3, radius: number): Field => coneField(from, radius, to, radius);

/**
 * The hull of two balls: a cone with round ends that meet it smoothly.
 *
 * @throws SolidError `bad-size` for a radius not above 0
 */
export function coneField(from: Vec3, fromRadius: number, to: Vec3, toRadius: number): Field {
  if (!(fromRadius > 0 && toRadius > 0))
    throw new SolidError(
      'bad-size',
      `the radii of a cone are ${fromRadius} and ${toRadius} mm; above 0 is needed`,
    );
  const length = distanceOf(from, to);
  const axis = length > 0 ? unit(minus(to, from)) : ([0, 0, 1] as const);
  const taper = fromRadius - toRadius;
  // One ball within the other: the larger alone.
  const whole = Math.abs(taper) >= length;
  const sine = whole ? 0 : taper / length;
  const cosine = Math.sqrt(1 - sine * sine);
  const distance: Field['distance'] = (x, y, z, g) => {
    const px = x - from[0];
    const py = y - from[1];
    const pz = z - from[2];
    const h = px * axis[0] + py * axis[1] + pz * axis[2];
    const qx = px - h * axis[0];
    const qy = py - h * axis[1];
    const qz = pz - h * axis[2];
    const q = Math.sqrt(qx * qx + qy * qy + qz * qz);
    // Place of the foot on the axis: down from the point, against the cone's normal.
    const foot = whole ? (taper >= 0 ? 0 : length) : h - (q * sine) / cosine;
    if (foot > 0 && foot < length && q > 0) {
      const f = cosine / q;
      g[0] = qx * f + axis[0] * sine;
      g[1] = qy * f + axis[1] * sine;
      g[2] = qz * f + axis[2] * sine;
      return q * cosine + h * sine - fromRadius;
    }
    const end = foot <= 0 ? 0 : length;
    const ex = px - end * axis[0];
    const ey = py - end * axis[1];
    const ez = pz - end * axis[2];
    const d = Math.sqrt(ex * ex + ey * ey + ez * ez);
    const f = d > 0 ? 1 / d : 0;
    g[0] = ex * f;
    g[1] = ey * f;
    g[2] = d > 0 ? ez * f : 1;
    return d - (end === 0 ? fromRadius : toRadius);
  };
  const a = boxRound([from], fromRadius);
  const b = boxRound([to], toRadius);
  return {
    distance,
    bounds: boxRound([a.min, a.max, b.min, b.max], 0),
    detail: Math.min(fromRadius, toRadius),
  };
}

/** A ring of round section about an axis through its centre. mm. */
export function ringField(centre: Vec3, axisDirection: Vec3, radius: number, sectionRadius: number): Field {
  const axis = unit(axisDirection);
  const distance: Field['distance'] = (x, y, z, g) => {
    const p: Vec3 = [x - centre[0], y - centre[1], z - centre[2]];
    const h = dot(p, axis);
    const [qx, qy, qz] = [p[0] - h * axis[0], p[1] - h * axis[1], p[2] - h * axis[2]];
    const q = Math.sqrt(qx * qx + qy * qy + qz * qz) || 1e-300;
    const out = q - radius;
    const d = Math.sqrt(out * out + h * h) || 1e-300;
    const f = out / (d * q);
    g[0] = qx * f + (axis[0] * h) / d;
    g[1] = qy * f + (axis[1] * h) / d;
    g[2] = qz * f + (axis[2] * h) / d;
    return d - sectionRadius;
  };
  return {
    distance,
    bounds: boxRound([centre], radius + sectionRadius),
    detail: Math.min(sectionRadius, radius - sectionRadius),
  };
}
