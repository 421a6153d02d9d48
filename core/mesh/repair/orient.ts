import type { Mesh } from '../../solid/types.js';
import { middleOf } from '../health/boundary-loops.js';
import { meshEdges } from '../health/mesh-edges.js';
import { findPatches, turnTriangles } from '../health/patches.js';
import { counted, near } from '../health/remark.js';
import { remark, type Step } from './step.js';

/** Turns over the triangles that run against the rest of their patch; nothing where the patch is twisted on itself. */
export function orientTriangles(mesh: Mesh): Step {
  const { flip, flips, firstFlip, twistedAt } = findPatches(mesh.triangles, meshEdges(mesh.triangles));
  if (flips === 0 || twistedAt >= 0) return { mesh, done: null };
  const at = middleOf(mesh, firstFlip);
  return {
    mesh: { positions: mesh.positions, triangles: turnTriangles(mesh.triangles, (f) => flip[f] === 1) },
    done: remark(
      'triangles-turned',
      flips,
      `${counted(flips, 'triangle was', 'triangles were')} turned over to face as what is round ${flips === 1 ? 'it' : 'them'}, the first ${near(at)}.`,
      at,
    ),
  };
}
