import { maths } from '../maths/maths.js';
import { checkPositive } from './check-input.js';
import { SolidError } from './errors.js';

/** A full circle never gets fewer sides than this, however coarse the tolerance. */
const fewestSegments = 8;
/** More sides than this is a slip in the units or the tolerance, not a shape. */
const mostSegments = 20_000;

function checkCount(n: number, radius: number, tolerance: number): number {
  if (n > mostSegments)
    throw new SolidError(
      'bad-size',
      `a circle of radius ${radius} mm at a tolerance of ${tolerance} mm needs ${n} sides; ` +
        `at most ${mostSegments} are made: use a coarser tolerance`,
    );
  return Math.max(fewestSegments, n);
}

/**
 * Sides of a regular polygon inscribed in a circle so that no chord lies further than `tolerance` inside it:
 * the sagitta r (1 − cos(π/n)) ≤ tolerance. mm; at least 8.
 */
export function segmentsOfCircle(radius: number, tolerance: number): number {
  checkPositive(radius, 'radius');
  checkPositive(tolerance, 'tolerance');
  if (tolerance >= radius) return fewestSegments;
  // 2 asin(√(t/2r)) is acos(1 − t/r) without its cancellation for a small t.
  const halfStep = 2 * maths.asin(Math.sqrt(tolerance / (2 * radius)));
  return checkCount(Math.ceil(Math.PI / halfStep - 1e-9), radius, tolerance);
}

/**
 * Sides of the great circles of a sphere made by dividing an octahedron, a multiple of four, so that no
 * triangle lies further than `tolerance` inside the sphere. The largest triangle's plane lies at most
 * 13.5 r/n² inside (measured over n = 8 to 400; the tests hold it).
 */
export function segmentsOfSphere(radius: number, tolerance: number): number {
  checkPositive(radius, 'radius');
  checkPositive(tolerance, 'tolerance');
  return checkCount(4 * Math.ceil(Math.sqrt((13.5 * radius) / tolerance) / 4), radius, tolerance);
}
