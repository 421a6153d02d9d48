import { maths } from '../maths/maths.js';
import type { Box, Vec3 } from '../solid/types.js';

/**
 * A body given by its distance field, mm. Where two bodies blend, and where a part becomes its casting, it is the
 * distance that decides; so every field here is the true distance near its surface (the blends' region and a stock's
 * reach), and nowhere further from zero than the true distance.
 */
export interface Field {
  /**
   * Signed distance of a point from the surface, negative inside. Writes the unit gradient, which is the outward
   * normal on the surface, to `gradient` (three numbers).
   */
  readonly distance: (x: number, y: number, z: number, gradient: Float64Array) => number;
  /** Holds the body. */
  readonly bounds: Box;
  /** Half the smallest thickness or gap, mm: what the first, coarse mesh has to be able to see. */
  readonly detail: number;
}

/** Distance of a point from a field's surface, for tests and measures. */
export const fieldDistance = (field: Field, [x, y, z]: Vec3): number =>
  field.distance(x, y, z, new Float64Array(3));

/** The body moved. */
export function moveField(field: Field, [dx, dy, dz]: Vec3): Field {
  const { min, max } = field.bounds;
  return {
    distance: (x, y, z, gradient) => field.distance(x - dx, y - dy, z - dz, gradient),
    bounds: {
      min: [min[0] + dx, min[1] + dy, min[2] + dz],
      max: [max[0] + dx, max[1] + dy, max[2] + dz],
    },
    detail: field.detail,
  };
}

/** The body turned about an axis through the origin, right-handed, radians. */
export function turnField(field: Field, axis: 'x' | 'y' | 'z', angle: number): Field {
  const i = { x: 1, y: 2, z: 0 }[axis];
  const j = { x: 2, y: 0, z: 1 }[axis];
  const [cos, sin] = [maths.cos(angle), maths.sin(angle)];
  const p = new Float64Array(3);
  const distance: Field['distance'] = (x, y, z, gradient) => {
    p[0] = x;
    p[1] = y;
    p[2] = z;
    const [a, b] = [p[i]!, p[j]!];
    p[i] = cos * a + sin * b;
    p[j] = cos * b - sin * a;
    const d = field.distance(p[0]!, p[1]!, p[2]!, gradient);
    const [u, v] = [gradient[i]!, gradient[j]!];
    gradient[i] = cos * u - sin * v;
    gradient[j] = sin * u + cos * v;
    return d;
  };
  return { distance, bounds: turnedBounds(field.bounds, i, j, cos, sin), detail: field.detail };
}

function turnedBounds({ min, max }: Box, i: number, j: number, cos: number, sin: number): Box {
  const [low, high] = [[...min], [...max]];
  const corners = [min, max].flatMap((p) => [min, max].map((q) => [p[i]!, q[j]!] as const));
  const us = corners.map(([a, b]) => cos * a - sin * b);
  const vs = corners.map(([a, b]) => sin * a + cos * b);
  [low[i], high[i]] = [Math.min(...us), Math.max(...us)];
  [low[j], high[j]] = [Math.min(...vs), Math.max(...vs)];
  return { min: [low[0]!, low[1]!, low[2]!], max: [high[0]!, high[1]!, high[2]!] };
}

/** The body mirrored in the plane through the origin square to an axis. */
export function mirrorField(field: Field, axis: 'x' | 'y' | 'z'): Field {
  const k = { x: 0, y: 1, z: 2 }[axis];
  const [sx, sy, sz] = [k === 0 ? -1 : 1, k === 1 ? -1 : 1, k === 2 ? -1 : 1];
  const [min, max] = [[...field.bounds.min], [...field.bounds.max]];
  [min[k], max[k]] = [-field.bounds.max[k]!, -field.bounds.min[k]!];
  return {
    distance: (x, y, z, gradient) => {
      const d = field.distance(sx * x, sy * y, sz * z, gradient);
      gradient[k] = -gradient[k]!;
      return d;
    },
    bounds: { min: [min[0]!, min[1]!, min[2]!], max: [max[0]!, max[1]!, max[2]!] },
    detail: field.detail,
  };
}

export const boxRound = (points: readonly Vec3[], reach: number): Box => ({
  min: [0, 1, 2].map((k) => Math.min(...points.map((p) => p[k]!)) - reach) as unknown as Vec3,
  max: [0, 1, 2].map((k) => Math.max(...points.map((p) => p[k]!)) + reach) as unknown as Vec3,
});

/** Lower bound of a point's distance from a box; 0 inside. */
export function boxDistance({ min, max }: Box, x: number, y: number, z: number): number {
  const dx = Math.max(min[0] - x, x - max[0], 0);
  const dy = Math.max(min[1] - y, y - max[1], 0);
  const dz = Math.max(min[2] - z, z - max[2], 0);
  return Math.sqrt(dx * dx + dy * dy + dz * dz);
}
