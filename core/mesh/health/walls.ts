import { maths } from '../../maths/maths.js';
import { RayTree } from '../../shape/ray-tree.js';
import { along, dot, lengthOf, minus, times } from '../../shape/vector.js';
import { faceVectors } from '../../solid/face-vectors.js';
import { measureBounds } from '../../solid/mesh-bounds.js';
import type { Mesh, Vec3 } from '../../solid/types.js';
import { pointOf } from './boundary-loops.js';
import { diagonalOf } from './shells.js';

/** Where walls are thinner than they may be. */
export interface ThinWalls {
  /** The thinnest found, mm, and where. */
  readonly thickness: number;
  readonly at: Vec3;
  /** Share of the surface that has too little behind it, 0 to 1. */
  readonly share: number;
  /** Places measured. */
  readonly places: number;
}

/** Faces are opposite when the wedge between them is less than this, radians: rounded edges are no walls. */
const wedge = Math.PI / 6;
const mostPlaces = 20_000;

/**
 * Measures walls by rays inwards, square to the surface, from at most 20,000 places spread evenly over its area; null
 * where none is thinner than `least`, mm. Finds no less than there is; a thin place smaller than one part in
 * 20,000 of the area may be missed.
 *
 * @param mesh closed, outward-facing
 */
export function findThinWalls(mesh: Mesh, least: number): ThinWalls | null {
  const { places, found } = measureWalls(mesh, least);
  const best = found.reduce<(typeof found)[number] | null>(
    (a, b) => (a && a.thickness <= b.thickness ? a : b),
    null,
  );
  return best && { ...best, share: found.length / places, places };
}

/**
 * The thickness, mm, that no more than a share of the surface has less of behind it; null where that is no wall, but as
 * thick as the body is wide.
 */
export function wallWithin(mesh: Mesh, share: number): number | null {
  const { places, found } = measureWalls(mesh, Number.POSITIVE_INFINITY);
  const sorted = found.map((w) => w.thickness).sort((a, b) => a - b);
  return sorted[Math.floor(share * places)] ?? null;
}

/** Walls thinner than `most`, from places spread evenly over the area. */
function measureWalls(
  mesh: Mesh,
  most: number,
): { readonly places: number; readonly found: readonly { readonly thickness: number; readonly at: Vec3 }[] } {
  const box = measureBounds(mesh);
  if (!box) return { places: 0, found: [] };
  const { normals, areas, area } = measureFaces(mesh);
  const tree = new RayTree(mesh, pieceLength(mesh, diagonalOf(box)));
  const facing = -maths.cos(wedge);
  const places = Math.min(mostPlaces, 4 * areas.length);
  const found: { thickness: number; at: Vec3 }[] = [];
  let f = -1;
  let reached = 0;
  for (let n = 0; n < places; n++) {
    const wanted = ((n + 0.5) / places) * area;
    while (reached < wanted && f + 1 < areas.length) reached += areas[++f]!;
    const at = placeIn(mesh, f, n);
    const normal: Vec3 = [normals[3 * f]!, normals[3 * f + 1]!, normals[3 * f + 2]!];
    const hit = tree.first(at, times(normal, -1), most, f);
    if (!hit) continue;
    const g = 3 * hit.triangle;
    if (dot(normal, [normals[g]!, normals[g + 1]!, normals[g + 2]!]) > facing) continue;
    found.push({ thickness: hit.distance, at });
  }
  return { places, found };
}

/** Places in a triangle one after the other, evenly spread: the golden ratio's two-dimensional kin (Roberts, 2018). */
function placeIn(mesh: Mesh, f: number, n: number): Vec3 {
  const g = 1.324717957244746;
  let u = (0.5 + n / g) % 1;
  let v = (0.5 + n / (g * g)) % 1;
  if (u + v > 1) [u, v] = [1 - u, 1 - v];
  const t = mesh.triangles;
  const a = pointOf(mesh, t[3 * f]!);
  const ab = minus(pointOf(mesh, t[3 * f + 1]!), a);
  const ac = minus(pointOf(mesh, t[3 * f + 2]!), a);
  return along(along(a, ab, u), ac, v);
}

function measureFaces(mesh: Mesh): { normals: Float64Array; areas: Float64Array; area: number } {
  const count = mesh.triangles.length / 3;
  const normals = faceVectors(mesh);
  const areas = new Float64Array(count);
  let area = 0;
  for (let f = 0; f < count; f++) {
    const n: Vec3 = [normals[3 * f]!, normals[3 * f + 1]!, normals[3 * f + 2]!];
    const length = lengthOf(n);
    areas[f] = length / 2;
    area += length / 2;
    normals.set(length > 0 ? times(n, 1 / length) : [0, 0, 0], 3 * f);
  }
  return { normals, areas, area };
}

/** Side of the pieces that long triangles are cut up in: longer where there would be too many pieces. */
function pieceLength(mesh: Mesh, diagonal: number): number {
  const { triangles: t } = mesh;
  const count = t.length / 3;
  const sides = new Float64Array(count);
  for (let f = 0; f < count; f++) {
    const [a, b, c] = [0, 1, 2].map((k) => pointOf(mesh, t[3 * f + k]!)) as [Vec3, Vec3, Vec3];
    sides[f] = Math.max(lengthOf(minus(b, a)), lengthOf(minus(c, b)), lengthOf(minus(a, c)));
  }
  for (let piece = diagonal / 40; piece < diagonal; piece *= 2) {
    let pieces = 0;
    for (let f = 0; f < count; f++) pieces += Math.max(1, (2 * sides[f]! * sides[f]!) / (piece * piece));
    if (pieces <= Math.max(200_000, 2 * count)) return piece;
  }
  return 2 * diagonal;
}
