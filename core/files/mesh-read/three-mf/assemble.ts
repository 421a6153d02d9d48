import type { ExactMesh } from '../../../solid/types.js';
import { FormatError } from '../../format-error.js';
import { checkCoordinate } from '../coordinate.js';
import type { MeshLimits } from '../limits.js';
import { checkNotEmpty, checkPlacings, checkTriangles, checkVertices } from '../too-large.js';
import type { ModelObject, ModelPlacing } from './model.js';
import { applyTransform, isMirrored, joinTransforms, type Transform } from './transform.js';

export type Objects = ReadonlyMap<string, ModelObject>;

interface Size {
  readonly vertices: number;
  readonly triangles: number;
  readonly placings: number;
  /** levels of components, itself one */
  readonly depth: number;
}

/**
 * All that the build places, in one mesh, in the build's coordinates. What overlaps is left so. Support objects are
 * left out.
 *
 * @throws FormatError for an object that is not there, one that holds itself, components too deep, or too much in all:
 * counted before anything is placed.
 */
export function assembleBuild(
  items: readonly ModelPlacing[],
  objects: Objects,
  limits: MeshLimits,
): ExactMesh {
  const sizes = new Map<string, Size>();
  let [vertices, triangles] = [0, 0];
  let placings = 0;
  for (const item of items) {
    const size = sizeOf(item, objects, sizes, [], limits);
    vertices += size.vertices;
    triangles += size.triangles;
    placings += size.placings;
    checkTotal({ vertices, triangles, placings }, limits);
  }
  checkNotEmpty(
    triangles,
    items.length === 0 ? ' to build: its list of what to build is empty' : ' to build',
  );
  const mesh = { positions: new Float64Array(3 * vertices), triangles: new Uint32Array(3 * triangles) };
  const filled = { positions: 0, triangles: 0 };
  for (const item of items) place(item, null, objects, mesh, filled);
  mesh.positions.forEach((value, i) => {
    checkCoordinate(value, () => ({
      where: `Vertex ${Math.floor(i / 3) + 1} of the build, after its transforms`,
      word: String(value),
      wrong: 'mesh-number',
    }));
  });
  return mesh;
}

function sizeOf(
  placing: ModelPlacing,
  objects: Objects,
  known: Map<string, Size>,
  above: readonly string[],
  limits: MeshLimits,
): Size {
  const object = objects.get(placing.key);
  if (!object) wrong(`${placing.where}: there is no such object in the package`);
  if (above.includes(placing.key)) wrong(`${placing.where}: an object holds itself`);
  const earlier = known.get(placing.key);
  if (above.length + (earlier?.depth ?? 1) > limits.depth)
    wrong(`${placing.where}: components within components, more than ${limits.depth} deep`);
  if (earlier) return earlier;
  let [vertices, triangles, placings] = [object.positions.length / 3, object.triangles.length / 3, 1];
  let depth = 1;
  if (object.support) [vertices, triangles] = [0, 0];
  else {
    for (const component of object.components) {
      const size = sizeOf(component, objects, known, [...above, placing.key], limits);
      vertices += size.vertices;
      triangles += size.triangles;
      placings += size.placings;
      depth = Math.max(depth, 1 + size.depth);
      checkTotal({ vertices, triangles, placings }, limits);
    }
  }
  const size = { vertices, triangles, placings, depth };
  known.set(placing.key, size);
  return size;
}

function checkTotal(size: Omit<Size, 'depth'>, limits: MeshLimits): void {
  checkTriangles(size.triangles, limits);
  checkVertices(size.vertices, limits);
  checkPlacings(size.placings, limits);
}

function place(
  placing: ModelPlacing,
  outer: Transform | null,
  objects: Objects,
  mesh: ExactMesh,
  filled: { positions: number; triangles: number },
): void {
  const object = objects.get(placing.key)!;
  if (object.support) return;
  const transform = joinTransforms(placing.transform, outer);
  const first = filled.positions / 3;
  applyTransform(transform, object.positions, mesh.positions, filled.positions);
  filled.positions += object.positions.length;
  // A mirrored triangle is turned round, so that its outside stays outside.
  const [second, third] = isMirrored(transform) ? [2, 1] : [1, 2];
  const { triangles: t } = object;
  for (let i = 0; i < t.length; i += 3) {
    for (const corner of [0, second, third]) mesh.triangles[filled.triangles++] = first + t[i + corner]!;
  }
  for (const component of object.components) place(component, transform, objects, mesh, filled);
}

function wrong(what: string): never {
  throw new FormatError('three-mf-object', `${what}.`, 'Export the file again.');
}
