/** What a shell needs to know of the pattern it clothes: area, bend, and the widest flats that metal presses on. */
import { maths } from '../../maths/maths.js';
import { measureBounds } from '../../solid/mesh-bounds.js';
import type { Mesh, Vec3 } from '../../solid/types.js';
import { meetTriangles } from './edges.js';
import { spanOf } from './span.js';

/** A flat of the pattern: its least and greatest width, mm, and the height of its lowest point. */
export interface Flat {
  readonly width: number;
  readonly length: number;
  readonly bottom: number;
}

export interface ShellSurface {
  /** mm² */
  readonly area: number;
  /** mm: ∫ of the mean curvature over the surface, hollows counted negative. */
  readonly bend: number;
  /** Vertices less edges plus faces: 2 for a body without holes. */
  readonly euler: number;
  readonly top: number;
  readonly bottom: number;
  /** The widest flats at every height, the widest first. */
  readonly flats: readonly Flat[];
}

/** mm²: flats smaller than this bear no load worth counting. */
const leastFlat = 100;
/** Cosine of 0.2°: triangles nearer than this to the first one's plane are one flat. */
const flatCosine = maths.cos((0.2 * Math.PI) / 180);

/**
 * Measures a closed mesh. The bend is ½ Σ length × angle turned through at the edges (Steiner; Santaló, Integral
 * Geometry and Geometric Probability, ch. 13), so that a body grown by t holds A t + bend t² + (2π/3) euler t³ more.
 */
export function measureShellSurface(mesh: Mesh): ShellSurface {
  const { positions: p, triangles: t } = mesh;
  const faces = t.length / 3;
  const at = (corner: number): Vec3 => {
    const v = 3 * t[corner]!;
    return [p[v]!, p[v + 1]!, p[v + 2]!];
  };
  const normals = new Float64Array(t.length);
  const areas = new Float64Array(faces);
  for (let f = 0; f < faces; f++) {
    const [a, b, c] = [at(3 * f), at(3 * f + 1), at(3 * f + 2)];
    const [ux, uy, uz] = [b[0] - a[0], b[1] - a[1], b[2] - a[2]];
    const [vx, vy, vz] = [c[0] - a[0], c[1] - a[1], c[2] - a[2]];
    const n = [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx] as const;
    const length = maths.hypot(...n);
    areas[f] = length / 2;
    for (let k = 0; k < 3; k++) normals[3 * f + k] = length > 0 ? n[k]! / length : 0;
  }
  const dotOf = (f: number, g: number): number =>
    normals[3 * f]! * normals[3 * g]! +
    normals[3 * f + 1]! * normals[3 * g + 1]! +
    normals[3 * f + 2]! * normals[3 * g + 2]!;
  const isThin = (f: number): boolean => areas[f]! < 1e-9;

  const { across, edges, vertices } = meetTriangles(t);
  let bend = 0;
  for (let half = 0; half < t.length; half++) {
    const [f, other] = [Math.floor(half / 3), across[half]!];
    if (other < half || isThin(f)) continue;
    const g = Math.floor(other / 3);
    if (isThin(g)) continue;
    const [a, b] = [at(half), at(half % 3 === 2 ? half - 2 : half + 1)];
    const far = at(other % 3 === 0 ? other + 2 : other - 1);
    // The far corner lies below this face's plane at a ridge, above it in a hollow.
    const lies =
      normals[3 * f]! * (far[0] - a[0]) +
      normals[3 * f + 1]! * (far[1] - a[1]) +
      normals[3 * f + 2]! * (far[2] - a[2]);
    const angle = maths.acos(Math.max(-1, Math.min(1, dotOf(f, g))));
    bend -= (Math.sign(lies) * angle * maths.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2])) / 2;
  }

  const flats: Flat[] = [];
  const seen = new Uint8Array(faces);
  for (let seed = 0; seed < faces; seed++) {
    if (seen[seed] === 1 || isThin(seed)) continue;
    const patch = [seed];
    seen[seed] = 1;
    let area = 0;
    for (let i = 0; i < patch.length; i++) {
      const f = patch[i]!;
      area += areas[f]!;
      for (let k = 0; k < 3; k++) {
        const other = across[3 * f + k]!;
        const g = Math.floor(other / 3);
        if (other < 0 || seen[g] === 1 || (!isThin(g) && dotOf(seed, g) < flatCosine)) continue;
        seen[g] = 1;
        patch.push(g);
      }
    }
    if (area < leastFlat) continue;
    const corners = patch.flatMap((f) => [at(3 * f), at(3 * f + 1), at(3 * f + 2)]);
    const normal: Vec3 = [normals[3 * seed]!, normals[3 * seed + 1]!, normals[3 * seed + 2]!];
    const bottom = corners.reduce((low, c) => Math.min(low, c[2]), Number.POSITIVE_INFINITY);
    flats.push({ ...spanOf(corners, normal), bottom });
  }
  const box = measureBounds(mesh);
  return {
    area: areas.reduce((sum, a) => sum + a, 0),
    bend,
    euler: vertices - edges + faces,
    top: box?.max[2] ?? 0,
    bottom: box?.min[2] ?? 0,
    flats: widest(flats),
  };
}

/** Those that no other beats in width and depth at once. */
function widest(flats: readonly Flat[]): readonly Flat[] {
  const kept: Flat[] = [];
  for (const flat of [...flats].sort((a, b) => b.width - a.width || a.bottom - b.bottom))
    if (!kept.some((k) => k.bottom <= flat.bottom && k.length >= flat.length)) kept.push(flat);
  return kept;
}
