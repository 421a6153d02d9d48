import type { Vec3 } from '../solid/types.js';
import type { Tube } from './tube.js';
import { along, cross, dot, lengthOf, minus, plus, times, unit } from './vector.js';

/** A tube with its normals, and with stock: points moved along the true normal of the surface. */
export interface TubeSurface {
  /** The surface moved by the stock; beyond flat ends it goes straight on. */
  readonly at: (u: number, v: number) => Vec3;
  /** Outward unit normal. */
  readonly normal: (u: number, v: number) => Vec3;
}

const step = 1e-4;

/** @param stock mm along the normal. */
export function tubeSurface(tube: Tube, stock: number): TubeSurface {
  const extended = (u: number, v: number): Vec3 => {
    if (tube.closed || (u >= 0 && u <= 1)) return tube.at(u, v);
    // Straight on from the end, by the surface's own direction there.
    const end = u < 0 ? 0 : 1;
    return along(tube.at(end, v), derivativeU(tube, end, v), u - end);
  };
  const normal = (u: number, v: number): Vec3 => {
    if (tube.start === 'tip' && u <= 1e-9) return times(tube.startDirection, -1);
    if (tube.end === 'tip' && u >= 1 - 1e-9) return tube.endDirection;
    const round = minus(extended(u, v + step), extended(u, v - step));
    return unit(cross(round, times(slopeU(tube, extended, u, v), 1)));
  };
  return {
    normal,
    at: stock === 0 ? extended : (u, v) => along(extended(u, v), normal(u, v), stock),
  };
}

/** ∂/∂u by central differences; at a tip by one side, inside it. */
function slopeU(tube: Tube, at: (u: number, v: number) => Vec3, u: number, v: number): Vec3 {
  if (tube.start === 'tip' && u < step) return oneSided(at, u, v, step / 2);
  if (tube.end === 'tip' && u > 1 - step) return oneSided(at, u, v, -step / 2);
  // Never across the join of a flat end with its straight extension, where the curvature jumps.
  if (!tube.closed && u >= 0 && u < step) return oneSided(at, u, v, step);
  if (!tube.closed && u <= 1 && u > 1 - step) return oneSided(at, u, v, -step);
  return times(minus(at(u + step, v), at(u - step, v)), 1 / (2 * step));
}

const derivativeU = (tube: Tube, end: 0 | 1, v: number): Vec3 =>
  oneSided(tube.at, end, v, end === 0 ? step : -step);

function oneSided(at: (u: number, v: number) => Vec3, u: number, v: number, h: number): Vec3 {
  const [p0, p1, p2] = [at(u, v), at(u + h, v), at(u + 2 * h, v)];
  return times(plus(along(times(p1, 4), p0, -3), times(p2, -1)), 1 / (2 * h));
}

/**
 * The u at which the surface crosses the plane square to a flat end, `beyond` mm past it, at a given v. By secants
 * from the end itself: the surface runs nearly along the normal of that plane.
 */
export function endCrossing(tube: Tube, surface: TubeSurface, end: 0 | 1, v: number, beyond: number): number {
  const outwards = end === 0 ? times(tube.startDirection, -1) : tube.endDirection;
  const centre = endCentre(tube, end);
  const past = (u: number): number => dot(minus(surface.at(u, v), centre), outwards) - beyond;
  const rate = lengthOf(derivativeU(tube, end, v));
  let u0: number = end;
  let f0 = past(u0);
  if (Math.abs(f0) < 1e-10) return u0;
  let u1 = u0 - (end === 0 ? -1 : 1) * (f0 / rate);
  for (let i = 0; i < 30; i++) {
    const f1 = past(u1);
    if (Math.abs(f1) < 1e-10 || f1 === f0) return u1;
    const next = u1 - (f1 * (u1 - u0)) / (f1 - f0);
    [u0, f0, u1] = [u1, f1, next];
  }
  return u1;
}

/** A point of the plane of a flat end. */
function endCentre(tube: Tube, end: 0 | 1): Vec3 {
  return times(plus(tube.at(end, 0), tube.at(end, 0.5)), 0.5);
}
