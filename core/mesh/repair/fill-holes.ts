import { cross, dot, minus, unit } from '../../shape/vector.js';
import type { Mesh, Vec3 } from '../../solid/types.js';
import {
  type BoundaryLoop,
  boundaryLoops,
  type MeshHole,
  measureHole,
  pointOf,
} from '../health/boundary-loops.js';
import { type MeshEdges, meshEdges, nextHalf, triangleOf } from '../health/mesh-edges.js';
import { findPatches } from '../health/patches.js';
import { counted, figure, near } from '../health/remark.js';
import { diagonalOf, measureShells } from '../health/shells.js';
import { remark, type Step } from './step.js';
import { triangulateLoop } from './triangulate-loop.js';

/** A hole no wider than this share of its own body's diagonal is trivial. */
export const trivialShare = 0.05;
/** Holes that are not flat have at most so many edges, flat ones so many. */
const fewEdges = 8;
export const mostEdges = 120;
const mostHoles = 2000;

/**
 * Fills trivial holes: flat, or of at most 8 edges, and no wider than a twentieth of their body; besides, a single
 * missing triangle that continues the face beside it; and flat holes up to `widest`, mm, where the caller says so.
 *
 * @param mesh its triangles running one way
 */
export function fillHoles(mesh: Mesh, widest = 0): Step {
  const edges = meshEdges(mesh.triangles);
  const loops = boundaryLoops(mesh.triangles, edges).filter((loop) => loop.isSimple);
  if (loops.length === 0 || loops.length > mostHoles) return { mesh, done: null };
  const patches = findPatches(mesh.triangles, edges);
  const shells = measureShells(mesh, edges, patches.patchOf, patches.count);
  const made: number[] = [];
  const filled: MeshHole[] = [];
  for (const loop of loops) {
    const hole = measureHole(mesh, loop);
    const body = diagonalOf(shells[patches.patchOf[loop.triangle]!]!.box);
    if (!isTrivial(mesh, edges, loop, hole, body, widest)) continue;
    const patch = patchOver(mesh, edges, loop);
    if (!patch) continue;
    made.push(...patch);
    filled.push(hole);
  }
  if (filled.length === 0) return { mesh, done: null };
  const triangles = new Uint32Array(mesh.triangles.length + made.length);
  triangles.set(mesh.triangles);
  triangles.set(made, mesh.triangles.length);
  const largest = filled.reduce((most, hole) => (hole.across > most.across ? hole : most));
  return {
    mesh: { positions: mesh.positions, triangles },
    done: remark(
      'holes-filled',
      filled.length,
      `${counted(filled.length, 'hole was', 'holes were')} filled, the widest ${figure(largest.across)} mm across with ${counted(largest.edges, 'edge')}, ${near(largest.at)}.`,
      largest.at,
    ),
  };
}

function isTrivial(
  mesh: Mesh,
  edges: MeshEdges,
  loop: BoundaryLoop,
  hole: MeshHole,
  body: number,
  widest: number,
): boolean {
  const isSmall = hole.across <= trivialShare * body;
  if (hole.edges > mostEdges) return false;
  if (isSmall && (hole.flat || hole.edges <= fewEdges)) return true;
  if (hole.flat && hole.across <= widest) return true;
  return hole.edges === 3 && continuesFace(mesh, edges, loop);
}

/** Whether the one triangle over a hole of three edges lies in the plane of a triangle beside it, on the far side. */
function continuesFace(mesh: Mesh, edges: MeshEdges, { vertices }: BoundaryLoop): boolean {
  const [a, b, c] = vertices.map((v) => pointOf(mesh, v)) as [Vec3, Vec3, Vec3];
  const normal = unit(cross(minus(c, a), minus(b, a)));
  return [0, 1, 2].some((k) => {
    const half = edges.halves[edges.starts[edges.find(vertices[k]!, vertices[(k + 1) % 3]!)]!]!;
    const [p, q, r] = [0, 1, 2].map((i) => pointOf(mesh, mesh.triangles[3 * triangleOf(half) + i]!));
    return dot(normal, unit(cross(minus(q!, p!), minus(r!, p!)))) > 1 - 1e-6;
  });
}

/** Triangles over a loop, against its direction, which is that of the triangles beside it. */
function patchOver(mesh: Mesh, edges: MeshEdges, { vertices }: BoundaryLoop): number[] | null {
  const n = vertices.length;
  // A loop whose triangles do not all run its way is left alone.
  for (let i = 0; i < n; i++) {
    const half = edges.halves[edges.starts[edges.find(vertices[i]!, vertices[(i + 1) % n]!)]!]!;
    if (mesh.triangles[half] !== vertices[i] || mesh.triangles[nextHalf(half)] !== vertices[(i + 1) % n])
      return null;
  }
  const back = vertices.toReversed();
  const made = triangulateLoop(
    back.map((v) => pointOf(mesh, v)),
    (i, j) => edges.find(back[i]!, back[j]!) >= 0,
  );
  return made?.flatMap((places) => places.map((i) => back[i]!)) ?? null;
}
