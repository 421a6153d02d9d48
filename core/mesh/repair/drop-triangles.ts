import { splitFlatTriangles } from '../../solid/split-flat.js';
import { isFlat } from '../../solid/triangle-crossing.js';
import type { Mesh } from '../../solid/types.js';
import { middleOf } from '../health/boundary-loops.js';
import { firstAlike, keepTriangles } from '../health/duplicates.js';
import { meshEdges, triangleOf, usesOf } from '../health/mesh-edges.js';
import { counted, near } from '../health/remark.js';
import { remark, type Step } from './step.js';

/**
 * Leaves one of each set of triangles on the same corners; none where that closes the surface better, as for a wall
 * without thickness between two bodies.
 */
export function dropDuplicates(mesh: Mesh): Step {
  const t = mesh.triangles;
  const alike = firstAlike(t);
  const again = alike.findIndex((first, f) => first !== f);
  if (again < 0) return { mesh, done: null };
  const once = keepTriangles(t, (f) => alike[f] === f);
  const edges = meshEdges(once);
  // Numbers in `once` of the triangles that were there several times.
  const numbers = new Uint32Array(t.length / 3);
  for (let f = 0, n = 0; f < t.length / 3; f++) if (alike[f] === f) numbers[f] = n++;
  const isRepeated = new Uint8Array(once.length / 3);
  alike.forEach((first, f) => {
    if (first !== f) isRepeated[numbers[first]!] = 1;
  });
  const isMembrane = (f: number): boolean =>
    isRepeated[f] === 1 &&
    [0, 1, 2].every((k) => {
      const e = edges.edgeOf[3 * f + k]!;
      const others = edges.halves
        .subarray(edges.starts[e]!, edges.starts[e + 1]!)
        .filter((half) => isRepeated[triangleOf(half)] === 0);
      // Inside a wall of repeated triangles, or at its rim, where two others meet it.
      return usesOf(edges, e) === 2 ? others.length === 0 : others.length === 2 && usesOf(edges, e) === 3;
    });
  const triangles = keepTriangles(once, (f) => !isMembrane(f));
  const dropped = (t.length - triangles.length) / 3;
  const at = middleOf(mesh, again);
  return {
    mesh: { positions: mesh.positions, triangles },
    done: remark(
      'duplicates-dropped',
      dropped,
      `${counted(dropped, 'triangle that was', 'triangles that were')} there more than once ${dropped === 1 ? 'was' : 'were'} left out, the first ${near(at)}.`,
      at,
    ),
  };
}

/**
 * Takes out triangles whose corners lie exactly on one line: the middle corner is given to the neighbour across the
 * long side; on an open edge the triangle is left out, and the crack is stitched later.
 */
export function dropFlat(mesh: Mesh): Step {
  const flat = listFlat(mesh);
  if (flat.length === 0) return { mesh, done: null };
  const at = middleOf(mesh, flat[0]!);
  const split = splitFlatTriangles(mesh);
  const edges = meshEdges(split.triangles);
  const left = new Set(
    listFlat(split).filter((f) => [0, 1, 2].some((k) => usesOf(edges, edges.edgeOf[3 * f + k]!) !== 2)),
  );
  return {
    mesh: { positions: mesh.positions, triangles: keepTriangles(split.triangles, (f) => !left.has(f)) },
    done: remark(
      'flat-dropped',
      flat.length,
      `${counted(flat.length, 'triangle', 'triangles')} without area ${flat.length === 1 ? 'was' : 'were'} taken out, the first ${near(at)}.`,
      at,
    ),
  };
}

function listFlat({ positions, triangles: t }: Mesh): number[] {
  const corners = { p: Float64Array.from(positions), t };
  const flat: number[] = [];
  for (let f = 0; f < t.length / 3; f++) if (isFlat(corners, f)) flat.push(f);
  return flat;
}
