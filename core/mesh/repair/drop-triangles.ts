import { splitFlatTriangles } from '../../solid/split-flat.js';
import { isFlat } from '../../solid/triangle-crossing.js';
import type { Mesh } from '../../solid/types.js';
import { middleOf } from '../health/boundary-loops.js';
import { firstAlike, keepTriangles } from '../health/duplicates.js';
import { meshEdges, triangleOf, usesOf } from '../health/mesh-edges.js';
import { findPatches } from '../health/patches.js';
import { counted, near } from '../health/remark.js';
import { remark, type Step } from './step.js';

/**
 * Leaves one of each set of triangles on the same corners. None of a wall without thickness inside a body; two where two
 * bodies have a piece of surface in common.
 */
export function dropDuplicates(mesh: Mesh): Step {
  const t = mesh.triangles;
  const alike = firstAlike(t);
  const again = alike.findIndex((first, f) => first !== f);
  if (again < 0) return { mesh, done: null };
  const once = keepTriangles(t, (f) => alike[f] === f);
  const copies = new Uint32Array(once.length / 3);
  // Which triangle of `once` each is, and how many came before it there.
  const numbers = new Uint32Array(t.length / 3);
  const kept = new Uint8Array(t.length / 3);
  for (let f = 0, n = 0; f < t.length / 3; f++) {
    numbers[f] = alike[f] === f ? n++ : numbers[alike[f]!]!;
    kept[f] = Math.min(255, copies[numbers[f]!]!++);
  }
  const wanted = wantedCopies(once, (f) => copies[f]! > 1);
  const triangles = keepTriangles(t, (f) => kept[f]! < wanted(numbers[f]!));
  const dropped = (t.length - triangles.length) / 3;
  if (dropped === 0) return { mesh, done: null };
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
 * How many of a repeated triangle belong to the surface. A patch of them all round which two other triangles meet is a
 * wall without thickness where those run on into each other, and is in two bodies where they do not.
 */
function wantedCopies(
  t: Uint32Array,
  isRepeated: (triangle: number) => boolean,
): (triangle: number) => number {
  const edges = meshEdges(t);
  const { patchOf, count } = findPatches(t, edges);
  const isPlain = new Uint8Array(count);
  const walls = new Uint32Array(count);
  const bands = new Uint32Array(count);
  for (let half = 0; half < t.length; half++) {
    const patch = patchOf[triangleOf(half)]!;
    const e = edges.edgeOf[half]!;
    const uses = usesOf(edges, e);
    if (uses === 2) continue;
    const others = [...edges.halves.subarray(edges.starts[e]!, edges.starts[e + 1]!)].filter(
      (h) => h !== half,
    );
    if (uses !== 3 || !isRepeated(triangleOf(half))) isPlain[patch] = 1;
    else if (t[others[0]!] === t[others[1]!]) bands[patch]!++;
    else walls[patch]!++;
  }
  for (let f = 0; f < t.length / 3; f++) if (!isRepeated(f)) isPlain[patchOf[f]!] = 1;
  return (f) => {
    const patch = patchOf[f]!;
    if (isPlain[patch]) return 1;
    if (walls[patch]! > 0 && bands[patch] === 0) return 0;
    return bands[patch]! > 0 && walls[patch] === 0 ? 2 : 1;
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
