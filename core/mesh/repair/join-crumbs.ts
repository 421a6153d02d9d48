import { distanceOf } from '../../shape/vector.js';
import { DisjointSets } from '../../solid/disjoint-sets.js';
import { inspectOnce } from '../../solid/inspect-once.js';
import { measureBounds } from '../../solid/mesh-bounds.js';
import { dropCollapsed } from '../../solid/mesh-topology.js';
import type { Mesh } from '../../solid/types.js';
import { weldMesh } from '../../solid/weld.js';
import { pointOf } from '../health/boundary-loops.js';
import { nextHalf } from '../health/mesh-edges.js';
import { counted, figure, near } from '../health/remark.js';
import { remark, type Step } from './step.js';

/** Of the largest coordinate: eight steps of float32, what a turn or a move of the part may round away. */
const steps = 1 / 1_048_576;

/**
 * Closes the edges of a sound mesh that are so short that no turned copy could keep them, as poles of computed balls
 * have them: a ring of corners 1e-15 apart. Left as it is where that would spoil it.
 */
export function joinCrumbs(mesh: Mesh): Step {
  const box = measureBounds(mesh);
  if (!box) return { mesh, done: null };
  const reach = steps * Math.max(...box.min.map(Math.abs), ...box.max.map(Math.abs));
  const { triangles: t } = mesh;
  const sets = new DisjointSets(mesh.positions.length / 3);
  let joined = 0;
  let first = 0;
  for (let half = 0; half < t.length; half++) {
    const [a, b] = [t[half]!, t[nextHalf(half)]!];
    if (distanceOf(pointOf(mesh, a), pointOf(mesh, b)) > reach) continue;
    const [p, q] = [sets.find(a), sets.find(b)];
    if (p === q) continue;
    if (joined++ === 0) first = a;
    sets.join(Math.min(p, q), Math.max(p, q));
  }
  if (joined === 0) return { mesh, done: null };
  const renamed = t.map((v) => sets.find(v));
  const clean = tidy(dropCollapsed({ positions: mesh.positions, triangles: renamed }));
  if (!inspectOnce(clean).ok) return { mesh, done: null };
  const at = pointOf(mesh, first);
  return {
    mesh: clean,
    done: remark(
      'crumbs-joined',
      joined,
      `${counted(joined, 'edge', 'edges')} no longer than ${figure(reach)} mm ${joined === 1 ? 'was' : 'were'} closed, the first ${near(at)}: turned, the part could not keep ${joined === 1 ? 'it' : 'them'}.`,
      at,
    ),
  };
}

/** Without the corners that no triangle names. */
export function tidy(mesh: Mesh): Mesh {
  const used = new Int32Array(mesh.positions.length / 3).fill(-1);
  let count = 0;
  const triangles = new Uint32Array(mesh.triangles.length);
  const order = new Uint32Array(used.length);
  for (let i = 0; i < triangles.length; i++) {
    const v = mesh.triangles[i]!;
    if (used[v]! < 0) {
      order[count] = v;
      used[v] = count++;
    }
    triangles[i] = used[v]!;
  }
  if (count === used.length) return mesh;
  const positions = new Float32Array(3 * count);
  for (let n = 0; n < count; n++)
    positions.set(mesh.positions.subarray(3 * order[n]!, 3 * order[n]! + 3), 3 * n);
  return weldMesh({ positions, triangles });
}
