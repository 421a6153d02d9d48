import type { GatingCasting } from '../../core/foundry/gating/index.js';
import { measureMesh } from '../../core/solid/mass-properties.js';
import { measureBounds, measurePlanRadius } from '../../core/solid/mesh-bounds.js';
import type { Box, Mesh } from '../../core/solid/types.js';

/** A mesh as the casting that is gated, in a bronze of 8.8 g/cm³. */
export function castingOf(mesh: Mesh): GatingCasting {
  const { volume, area } = measureMesh(mesh);
  const { min, max } = measureBounds(mesh) as Box;
  return {
    volume,
    area,
    mass: volume * 0.0088,
    top: max[2],
    bottom: min[2],
    radius: measurePlanRadius(mesh),
  };
}
