import { cross, dot } from '../../shape/vector.js';
import { axisDistance } from './cylinder-fit.js';
import type { Sheet } from './sheet.js';
import type { Candidate, Cylinder, CylinderCandidate, PlaneCandidate } from './surface.js';

/** Fewest flats on one circle that are taken for its pieces. */
const fewest = 5;
/** Sine of half the widest sweep of one, 22°: hexagons and octagons stay flats. */
const widestHalf = 0.375;
/** Sine between a flat and the axis. */
const mostTilt = 3e-3;

/**
 * Flats that are the lands of a round body, as the tips of a gear's teeth are: about the axis of a bore or boss, all their
 * corners on one circle. They become one cylinder; the other flats stay.
 */
export function joinRingFlats(
  sheet: Sheet,
  cylinders: readonly Candidate[],
  flats: readonly PlaneCandidate[],
): Candidate[] {
  const close = 5 * sheet.exact;
  let left = [...flats];
  const found: CylinderCandidate[] = [];
  for (const { point, direction } of distinctAxes(cylinders, close)) {
    const lands = left.flatMap((flat) => {
      const radius = landRadius(flat, { point, direction, radius: 0 }, close);
      return radius === null ? [] : [{ flat, radius }];
    });
    lands.sort((a, b) => a.radius - b.radius);
    for (let at = 0; at < lands.length; ) {
      const { radius } = lands[at]!;
      const beyond = lands.findIndex((land) => land.radius > radius + close);
      const ring = lands.slice(at, beyond < 0 ? undefined : beyond);
      at += ring.length;
      if (ring.length < fewest) continue;
      const members = new Set(ring.map((land) => land.flat));
      left = left.filter((flat) => !members.has(flat));
      found.push({
        kind: 'cylinder',
        triangles: ring.flatMap((land) => [...land.flat.triangles]),
        cylinder: { point, direction, radius: ring.reduce((s, land) => s + land.radius, 0) / ring.length },
        points: Float64Array.from(ring.flatMap((land) => [...land.flat.points])),
      });
    }
  }
  return [...left, ...found];
}

function distinctAxes(cylinders: readonly Candidate[], close: number): Cylinder[] {
  const axes: Cylinder[] = [];
  for (const candidate of cylinders) {
    if (candidate.kind !== 'cylinder') continue;
    const { cylinder } = candidate;
    const [x, y, z] = cylinder.point;
    const isKnown = axes.some(
      (known) =>
        Math.abs(dot(known.direction, cylinder.direction)) > 1 - 1e-6 && axisDistance(known, x, y, z) < close,
    );
    if (!isKnown && axes.length < 200) axes.push(cylinder);
  }
  return axes;
}

/** Radius of the circle that all corners of a flat along the axis lie on, mm. */
function landRadius({ normal, points }: PlaneCandidate, axis: Cylinder, close: number): number | null {
  if (Math.abs(dot(normal, axis.direction)) > mostTilt) return null;
  const side = cross(axis.direction, normal);
  const middle = dot(side, axis.point);
  let [least, most] = [Infinity, 0];
  let reach = 0;
  for (let i = 0; i < points.length; i += 3) {
    const radius = axisDistance(axis, points[i]!, points[i + 1]!, points[i + 2]!);
    least = Math.min(least, radius);
    most = Math.max(most, radius);
    if (most - least > close) return null;
    const aside = points[i]! * side[0] + points[i + 1]! * side[1] + points[i + 2]! * side[2] - middle;
    reach = Math.max(reach, Math.abs(aside));
  }
  return reach < widestHalf * most ? (least + most) / 2 : null;
}
