import { findAlloy } from '../../core/foundry/alloys/index.js';
import { massOf } from '../../core/foundry/material.js';
import type { Job } from '../../core/job/job.js';
import { buildState, toleranceOf } from '../../core/job/part-states.js';
import { noStock } from '../../core/part/stock.js';
import { measureMesh } from '../../core/solid/mass-properties.js';
import { measureBounds } from '../../core/solid/mesh-bounds.js';
import type { Box, Kernel, Mesh, Vec3 } from '../../core/solid/types.js';
import { findPart } from '../../generators/index.js';

/** One finished casting of an entry of a job. */
export interface FinishedCasting {
  /** The piece it is of its part; '' for a part that is one casting. */
  readonly piece: string;
  readonly alloy: string;
  readonly mesh: Mesh;
  /** g */
  readonly mass: number;
  /** Outside sizes as it is cast, mm. */
  readonly size: Vec3;
}

/**
 * Builds the finished castings that an entry of a job becomes: one, or one for each piece of its part.
 * @throws Error when there is no such entry, or a part of it cannot be made
 */
export function finishedCastings(job: Job, entry: string, kernel: Kernel): readonly FinishedCasting[] {
  const requests = job.parts.filter(
    ({ name, piece }) => name === entry || (piece !== undefined && name === `${entry}-${piece}`),
  );
  if (requests.length === 0) throw new Error(`${job.name} has no part called ${entry}`);
  return requests.map((request) => {
    const { name, part, piece, alloy } = request;
    const definition = findPart(part);
    const metal = findAlloy(alloy, job.shop.alloys);
    if (!definition || !metal) throw new Error(`${name}: no part ${part}, or no alloy ${alloy}`);
    const mesh = kernel.scope(() => {
      const built = buildState(request, definition, noStock, kernel, job, toleranceOf(definition, job));
      if (built.solid === null) throw new Error(`${name}: ${built.findings.map((f) => f.message).join(' ')}`);
      return built.solid.mesh();
    });
    const { min, max } = measureBounds(mesh) as Box;
    return {
      piece: piece ?? '',
      alloy,
      mesh,
      mass: massOf(measureMesh(mesh).volume, metal),
      size: [max[0] - min[0], max[1] - min[1], max[2] - min[2]],
    };
  });
}
