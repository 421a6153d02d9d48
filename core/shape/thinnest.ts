import { maths } from '../maths/maths.js';
import { measureBounds } from '../solid/mesh-bounds.js';
import type { Mesh, Vec3 } from '../solid/types.js';
import { halveTriangle, RayTree } from './ray-tree.js';
import { along, cross, dot, lengthOf, minus, plus, times } from './vector.js';

/** A thin place between two faces turned away from (or towards) each other. */
export interface ThinPlace {
  /** Measured along the normal of the face at `at`, mm. */
  readonly thickness: number;
  readonly at: Vec3;
  readonly opposite: Vec3;
}

/** The thinnest wall of metal, and the thinnest gap that the mould has to fill; null where there is none. */
export interface Thinnest {
  readonly wall: ThinPlace | null;
  readonly gap: ThinPlace | null;
}

export interface ThinnestOptions {
  /** Greatest distance between measured places, mm; a 150th of the diagonal when left out. */
  readonly spacing?: number;
  /** Faces count as opposite when the angle of the wedge between them is less than this, radians; 60° when left out. */
  readonly wedge?: number;
  /** Only what is thinner than this, mm, is looked for; without limit when left out. */
  readonly below?: number;
  /** Places not to be measured, on either face: a core that has rules of its own. */
  readonly except?: (at: Vec3) => boolean;
}

/** How far inside a triangle's corners, as a share of it, the outermost places lie. */
const inset = 0.02;

/**
 * Measures walls and gaps by rays square to the surface, from places all over it to the first face they meet, where
 * that face looks the other way within `wedge`. Rounded edges and fillets therefore do not count, however small; a
 * knife edge sharper than the wedge does, as all but nothing. Never finds less than there is; between flat parallel
 * faces exact, elsewhere over by spacing × tan(wedge between the faces) at most, and on round walls by the chords'
 * error. Pure.
 *
 * @param mesh closed, as `Solid.mesh()` gives it
 */
export function measureThinnest(mesh: Mesh, options: ThinnestOptions = {}): Thinnest {
  const bounds = measureBounds(mesh);
  if (!bounds) return { wall: null, gap: null };
  const spacing = options.spacing ?? lengthOf(minus(bounds.max, bounds.min)) / 150;
  const facing = -maths.cos(options.wedge ?? Math.PI / 3);
  const below = options.below ?? Number.POSITIVE_INFINITY;
  const except = options.except ?? (() => false);
  const tree = new RayTree(mesh, lengthOf(minus(bounds.max, bounds.min)) / 40);
  const normals = faceNormals(mesh);
  const found: { wall: ThinPlace | null; gap: ThinPlace | null } = { wall: null, gap: null };
  for (let f = 0; f < mesh.triangles.length / 3; f++) {
    const normal = normals[f];
    if (!normal) continue;
    for (const at of places(mesh, f, spacing)) {
      for (const [kind, direction] of [
        ['wall', times(normal, -1)],
        ['gap', normal],
      ] as const) {
        const hit = tree.first(at, direction, found[kind]?.thickness ?? below, f);
        const other = hit && normals[hit.triangle];
        if (!hit || !other || dot(normal, other) > facing) continue;
        const opposite = along(at, direction, hit.distance);
        if (except(at) || except(opposite)) continue;
        found[kind] = { thickness: hit.distance, at, opposite };
      }
    }
  }
  return found;
}

const corner = ({ positions: p, triangles: t }: Mesh, f: number, k: number): Vec3 => {
  const v = 3 * t[3 * f + k]!;
  return [p[v]!, p[v + 1]!, p[v + 2]!];
};

function faceNormals(mesh: Mesh): readonly (Vec3 | null)[] {
  return Array.from({ length: mesh.triangles.length / 3 }, (_, f) => {
    const a = corner(mesh, f, 0);
    const n = cross(minus(corner(mesh, f, 1), a), minus(corner(mesh, f, 2), a));
    const length = lengthOf(n);
    return length > 1e-12 ? times(n, 1 / length) : null;
  });
}

/** The centres of a triangle's pieces, halved across their longest sides down to the spacing, and a place in each corner. */
function places(mesh: Mesh, f: number, spacing: number): readonly Vec3[] {
  const [a, b, c] = [corner(mesh, f, 0), corner(mesh, f, 1), corner(mesh, f, 2)];
  const [ab, ac] = [minus(b, a), minus(c, a)];
  const at = (u: number, v: number): Vec3 => along(along(a, ab, u), ac, v);
  const found = [at(inset, inset), at(1 - 2 * inset, inset), at(inset, 1 - 2 * inset)];
  halveTriangle(a, b, c, spacing, (p, q, r) => found.push(times(plus(plus(p, q), r), 1 / 3)));
  return found;
}
