import type { Triangulate } from './binding.js';
import { SolidError } from './errors.js';
import type { RawMesh } from './mesh-solid.js';
import { facePlane, flatten } from './plane.js';
import type { Mesh, Vec2, Vec3 } from './types.js';

/** The part of @jscad/modeling the bridge uses. */
export type ModelingGeometries = typeof import('@jscad/modeling').geometries;

/** @jscad/modeling computes one corner several ways; corners this close, relative to the extent, are one. */
const weldFraction = 1e-8;

/** Loads @jscad/modeling (CommonJS). */
export async function loadModeling(): Promise<ModelingGeometries> {
  const module = await import('@jscad/modeling');
  // Node gives a CommonJS module as `default`; bundlers may give its members directly.
  return (module.geometries ?? module.default.geometries) as ModelingGeometries;
}

/** A geom3's faces as a triangle mesh with welded corners. Whether it is closed is left to the caller. */
export function meshOfModeling(
  geometries: ModelingGeometries,
  geometry: unknown,
  triangulate: Triangulate,
): RawMesh {
  if (!geometries.geom3.isA(geometry))
    throw new SolidError('bad-mesh', 'fromModeling needs a @jscad/modeling geom3');
  const faces = geometries.geom3.toPolygons(geometry).map((face) => face.vertices as readonly Vec3[]);
  if (faces.length === 0) throw new SolidError('bad-mesh', 'the @jscad/modeling geom3 is empty');
  const extent = faces.reduce((m, face) => face.reduce((k, p) => Math.max(k, ...p.map(Math.abs)), m), 0);
  if (!Number.isFinite(extent))
    throw new SolidError('bad-mesh', 'the @jscad/modeling geom3 has a coordinate that is not finite');
  const welder = new Welder(extent * weldFraction);
  const triangles: number[] = [];
  for (const face of faces) {
    const corners = face.map((p) => welder.index(p));
    for (const [a, b, c] of splitFace(face, triangulate)) {
      const [i, j, k] = [corners[a!]!, corners[b!]!, corners[c!]!];
      if (i !== j && j !== k && k !== i) triangles.push(i, j, k);
    }
  }
  return { positions: Float64Array.from(welder.points.flat()), triangles: Uint32Array.from(triangles) };
}

/** A geom3 of a mesh, one triangle a face. */
export function modelingOfMesh(geometries: ModelingGeometries, mesh: Mesh): unknown {
  const { positions: p, triangles: t } = mesh;
  const corner = (i: number): [number, number, number] => {
    const at = 3 * t[i]!;
    return [p[at]!, p[at + 1]!, p[at + 2]!];
  };
  const faces = [];
  for (let i = 0; i < t.length; i += 3)
    faces.push(geometries.poly3.create([corner(i), corner(i + 1), corner(i + 2)]));
  return geometries.geom3.create(faces);
}

function splitFace(face: readonly Vec3[], triangulate: Triangulate): readonly (readonly number[])[] {
  if (face.length < 3) return [];
  if (face.length === 3) return [[0, 1, 2]];
  const plane = facePlane(face);
  const flat = plane && flatten(face, plane);
  if (!flat || isConvex(flat)) return face.slice(2).map((_, i) => [0, i + 1, i + 2]);
  return triangulate([flat]);
}

function isConvex(polygon: readonly Vec2[]): boolean {
  const n = polygon.length;
  return polygon.every((b, i) => {
    const a = polygon[(i + n - 1) % n]!;
    const c = polygon[(i + 1) % n]!;
    return (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0]) > 0;
  });
}

/** Gives one index to points within `reach` of each other, by a grid of cells twice that size. */
class Welder {
  readonly points: Vec3[] = [];
  readonly #cells = new Map<string, number[]>();
  readonly #reach: number;
  constructor(reach: number) {
    this.#reach = Math.max(reach, Number.MIN_VALUE);
  }

  index(point: Vec3): number {
    const low = point.map((x) => Math.floor((x - this.#reach) / (2 * this.#reach)));
    const high = point.map((x) => Math.floor((x + this.#reach) / (2 * this.#reach)));
    for (let x = low[0]!; x <= high[0]!; x++)
      for (let y = low[1]!; y <= high[1]!; y++)
        for (let z = low[2]!; z <= high[2]!; z++)
          for (const i of this.#cells.get(`${x},${y},${z}`) ?? [])
            if (this.points[i]!.every((v, k) => Math.abs(v - point[k]!) <= this.#reach)) return i;
    const key = point.map((x) => Math.floor(x / (2 * this.#reach))).join(',');
    const cell = this.#cells.get(key);
    const index = this.points.push(point) - 1;
    if (cell) cell.push(index);
    else this.#cells.set(key, [index]);
    return index;
  }
}
