import { maths } from '../maths/maths.js';
import type { Box, Mesh, Vec2 } from './types.js';

/** Smallest box about the mesh's vertices, mm; null for a mesh without any. */
export function measureBounds({
  positions: p,
}: {
  readonly positions: Float32Array | Float64Array;
}): Box | null {
  if (p.length === 0) return null;
  const min: [number, number, number] = [Infinity, Infinity, Infinity];
  const max: [number, number, number] = [-Infinity, -Infinity, -Infinity];
  for (let k = 0; k < 3; k++) {
    for (let i = k; i < p.length; i += 3) {
      if (p[i]! < min[k]!) min[k] = p[i]!;
      if (p[i]! > max[k]!) max[k] = p[i]!;
    }
  }
  return { min, max };
}

/** Radius in plan of a circle about the middle of the mesh's box that holds it, mm. */
export function measurePlanRadius(mesh: Mesh): number {
  const box = measureBounds(mesh);
  if (!box) return 0;
  return measureReach(mesh, [(box.min[0] + box.max[0]) / 2, (box.min[1] + box.max[1]) / 2]);
}

/** Radius in plan of the circle about a point that holds the mesh, mm. */
export function measureReach({ positions: p }: Mesh, [cx, cy]: Vec2): number {
  let radius = 0;
  for (let i = 0; i < p.length; i += 3) radius = Math.max(radius, maths.hypot(p[i]! - cx, p[i + 1]! - cy));
  return radius;
}
