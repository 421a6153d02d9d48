import { distanceOf } from '../../shape/vector.js';
import { dropCollapsed } from '../../solid/mesh-topology.js';
import type { Mesh } from '../../solid/types.js';
import { pointOf } from '../health/boundary-loops.js';
import { type MeshEdges, meshEdges, nextHalf, usesOf } from '../health/mesh-edges.js';
import { counted, figure, near } from '../health/remark.js';
import { joiningReach } from './reach.js';
import { remark, type Step } from './step.js';

/**
 * Joins corners on open edges that all but coincide: within the joining reach, and within a quarter of the shortest
 * edge at either, so that no edge is lost. Given up where it closes nothing or makes edges of more than two triangles.
 */
export function joinCorners(mesh: Mesh): Step {
  const edges = meshEdges(mesh.triangles);
  const before = countBad(edges);
  if (before.open === 0) return { mesh, done: null };
  const reach = joiningReach(mesh);
  const { target, joined, first } = findJoins(mesh, edges, reach);
  if (joined === 0) return { mesh, done: null };
  const renamed = mesh.triangles.map((v) => target[v]!);
  const whole = dropCollapsed({ positions: mesh.positions, triangles: renamed });
  const after = countBad(meshEdges(whole.triangles));
  if (after.open >= before.open || after.shared > before.shared) return { mesh, done: null };
  const at = pointOf(mesh, first);
  return {
    mesh: whole,
    done: remark(
      'corners-joined',
      joined,
      `${counted(joined, 'corner was', 'corners were')} joined to others at most ${figure(reach)} mm away, the first ${near(at)}.`,
      at,
    ),
  };
}

function findJoins(mesh: Mesh, edges: MeshEdges, reach: number) {
  const { positions: p, triangles: t } = mesh;
  const count = p.length / 3;
  const isOpen = new Uint8Array(count);
  for (let half = 0; half < t.length; half++)
    if (usesOf(edges, edges.edgeOf[half]!) === 1) {
      isOpen[t[half]!] = 1;
      isOpen[t[nextHalf(half)]!] = 1;
    }
  const room = new Float64Array(count).fill(4 * reach);
  for (let half = 0; half < t.length; half++) {
    const [a, b] = [t[half]!, t[nextHalf(half)]!];
    if (!isOpen[a] && !isOpen[b]) continue;
    const length = distanceOf(pointOf(mesh, a), pointOf(mesh, b));
    if (length < room[a]!) room[a] = length;
    if (length < room[b]!) room[b] = length;
  }
  // In order along a direction in which no two corners of a regular shape lie level.
  const key = (v: number): number => 0.4142 * p[3 * v]! + 0.618 * p[3 * v + 1]! + 0.6674 * p[3 * v + 2]!;
  const list: number[] = [];
  for (let v = 0; v < count; v++) if (isOpen[v]) list.push(v);
  const keys = new Float64Array(count);
  for (const v of list) keys[v] = key(v);
  list.sort((a, b) => keys[a]! - keys[b]! || a - b);
  const target = Uint32Array.from({ length: count }, (_, v) => v);
  let joined = 0;
  let first = 0;
  for (let i = 0; i < list.length; i++) {
    const v = list[i]!;
    if (target[v] !== v) continue;
    for (let j = i + 1; j < list.length && keys[list[j]!]! - keys[v]! <= reach; j++) {
      const w = list[j]!;
      if (target[w] !== w) continue;
      const distance = distanceOf(pointOf(mesh, v), pointOf(mesh, w));
      if (distance > reach || 4 * distance > Math.min(room[v]!, room[w]!)) continue;
      target[w] = v;
      if (joined++ === 0) first = v;
    }
  }
  return { target, joined, first };
}

/** Open edges, and edges of more than two triangles. */
export function countBad(edges: MeshEdges): { readonly open: number; readonly shared: number } {
  let open = 0;
  let shared = 0;
  for (let e = 0; e < edges.count; e++) {
    const uses = usesOf(edges, e);
    if (uses === 1) open++;
    else if (uses > 2) shared++;
  }
  return { open, shared };
}
