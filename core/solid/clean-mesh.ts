import type { Manifold } from 'manifold-3d/manifold.js';
import { SolidError } from './errors.js';
import { inspectOnce } from './inspect-once.js';
import { dropCollapsed } from './mesh-topology.js';
import { sortMesh } from './sort-mesh.js';
import { splitFlatTriangles } from './split-flat.js';
import type { Mesh } from './types.js';
import { weldMesh } from './weld.js';

/**
 * How far, mm, the surface may move to get rid of what float32 cannot tell apart, tried in turn: slivers and
 * steps thinner than the rounding, about 4e-6 mm at 100 mm from the origin. Nothing that can be cast or
 * printed is so small.
 */
const simplifications = [0, 1e-5, 1e-4] as const;

/**
 * The mesh of a manifold as float32, and so STL, carries it: closed, outward-facing, without degenerate
 * triangles or self-intersections, vertices and triangles in one order, so that equal solids give equal bytes.
 *
 * @throws SolidError `not-carriable` when the solid itself touches along an edge or at a point, or holds walls
 * thinner than float32 can tell apart
 */
export function cleanMesh(manifold: Manifold): Mesh {
  let problems: readonly string[] = [];
  for (const reach of simplifications) {
    const rounded = roundMesh(manifold, reach);
    for (const repair of [sortMesh, (mesh: Mesh) => sortMesh(splitFlatTriangles(dropFolded(mesh)))]) {
      const mesh = repair(rounded);
      const report = inspectOnce(mesh);
      if (report.ok) return mesh;
      if (problems.length === 0) problems = report.problems;
    }
  }
  throw new SolidError(
    'not-carriable',
    `the solid's mesh cannot be written: ${problems.join('; ')}. ` +
      'Parts that join must overlap by a real amount, and parts that do not must stay apart',
  );
}

/** Rounded to float32, equal positions joined, without the triangles that thereby lost a corner. */
function roundMesh(manifold: Manifold, reach: number): Mesh {
  if (reach === 0) return dropCollapsed(takeMesh(manifold));
  const simple = manifold.simplify(reach);
  try {
    return dropCollapsed(takeMesh(simple));
  } finally {
    simple.delete();
  }
}

function takeMesh(manifold: Manifold): Mesh {
  const { vertProperties, triVerts } = manifold.getMesh();
  return weldMesh({ positions: vertProperties, triangles: triVerts });
}

/** Leaves out pairs of triangles on the same corners facing opposite ways: rounding laid them on each other. */
function dropFolded({ positions, triangles: t }: Mesh): Mesh {
  const kept = new Set<number>();
  const places = new Map<string, number>();
  for (let f = 0; f < t.length; f += 3) {
    const corners = [t[f]!, t[f + 1]!, t[f + 2]!];
    const key = corners.toSorted((a, b) => a - b).join();
    const twin = places.get(key);
    if (twin !== undefined && rises(corners) !== rises([t[twin]!, t[twin + 1]!, t[twin + 2]!])) {
      places.delete(key);
      kept.delete(twin);
      continue;
    }
    places.set(key, f);
    kept.add(f);
  }
  return { positions, triangles: Uint32Array.from([...kept].flatMap((f) => [t[f]!, t[f + 1]!, t[f + 2]!])) };
}

/** Whether the corners, read from the least, rise: one of the two ways round. */
function rises(corners: readonly number[]): boolean {
  const first = corners.indexOf(Math.min(...corners));
  return corners[(first + 1) % 3]! < corners[(first + 2) % 3]!;
}
