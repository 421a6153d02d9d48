import { BufferAttribute, BufferGeometry, Vector3 } from 'three';
import { MeshBVH } from 'three-mesh-bvh';
import type { BuildResult, BuiltPart, PartDefinition } from '../../core/part/contract.js';
import { noStock, type Stock } from '../../core/part/stock.js';
import { loadKernel } from '../../core/solid/kernel.js';
import type { Mesh, Polygon, Vec3 } from '../../core/solid/types.js';

const kernel = await loadKernel();
/** A built state with its solid turned into plain data. */
export interface Built extends Omit<BuiltPart, 'solid'> {
  readonly mesh: Mesh;
  readonly volume: number;
  readonly slices: readonly (readonly Polygon[])[];
}

export type Refused = Extract<BuildResult, { solid: null }>;

export const tolerance = 0.01;

/** What a look at a part asks for. */
export interface Asked {
  readonly given?: Record<string, unknown>;
  readonly stock?: Stock;
  readonly piece?: string;
  /** Heights of slices. */
  readonly heights?: readonly number[];
  readonly chord?: number;
}

/** Builds and leaves nothing in the kernel: mesh, volume, slices at the heights asked for; or the refusal. */
export function tryBuildPart(
  definition: PartDefinition,
  { given = {}, stock = noStock, piece, heights = [], chord = tolerance }: Asked,
): Built | Refused {
  return kernel.scope(() => {
    const kit = { kernel, tolerance: chord, ...(piece === undefined ? {} : { piece }) };
    const built = definition.build(definition.parameters.parse(given), stock, kit);
    if (built.solid === null) return built;
    const { solid, ...notes } = built;
    return {
      ...notes,
      mesh: solid.mesh(),
      volume: solid.volume(),
      slices: heights.map((z) => solid.slice(z)),
    };
  });
}

export function buildPart(definition: PartDefinition, asked: Asked): Built {
  const built = tryBuildPart(definition, asked);
  if ('solid' in built) throw new Error(`refused: ${built.findings.map((f) => f.code).join(', ')}`);
  return built;
}

export const sizeOf = (built: Pick<Built, 'dimensions'>, symbol: string): number => {
  const found = built.dimensions.find((d) => d.symbol === symbol);
  if (!found) throw new Error(`no dimension ${symbol}`);
  return found.value;
};

/** Nearest distance from points to a mesh, by a published bounding-volume search. */
export function distanceTo(mesh: Mesh): (p: Vec3) => number {
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(mesh.positions.slice(), 3));
  geometry.setIndex(new BufferAttribute(mesh.triangles.slice(), 1));
  const bvh = new MeshBVH(geometry);
  const at = new Vector3();
  return ([x, y, z]) => {
    const hit = bvh.closestPointToPoint(at.set(x, y, z));
    if (!hit) throw new Error('empty mesh');
    return hit.distance;
  };
}

export interface SurfacePoint {
  readonly at: Vec3;
  /** Outward unit normal of its triangle. */
  readonly normal: Vec3;
}

/** Points spread over a mesh: a lattice on every triangle, no further apart than `spacing`. */
export function surfacePoints(mesh: Mesh, spacing: number): SurfacePoint[] {
  const points: SurfacePoint[] = [];
  const corner = (i: number): Vector3 => new Vector3().fromArray(mesh.positions, 3 * i);
  for (let t = 0; t < mesh.triangles.length; t += 3) {
    const [a, b, c] = [0, 1, 2].map((k) => corner(mesh.triangles[t + k] as number)) as [
      Vector3,
      Vector3,
      Vector3,
    ];
    const cross = b.clone().sub(a).cross(c.clone().sub(a));
    if (cross.length() < 1e-4) continue;
    const normal = cross.normalize().toArray() as Vec3;
    const n = Math.max(1, Math.ceil(Math.max(a.distanceTo(b), b.distanceTo(c), c.distanceTo(a)) / spacing));
    for (let i = 0; i < n; i++) {
      for (let j = 0; i + j < n; j++) {
        const [u, v] = [(i + 1 / 3) / n, (j + 1 / 3) / n];
        const p = new Vector3()
          .addScaledVector(a, 1 - u - v)
          .addScaledVector(b, u)
          .addScaledVector(c, v);
        points.push({ at: p.toArray() as Vec3, normal });
      }
    }
  }
  return points;
}

export function bounds(mesh: Mesh): { min: Vec3; max: Vec3 } {
  const [min, max] = [
    [1e9, 1e9, 1e9],
    [-1e9, -1e9, -1e9],
  ] as [[number, number, number], [number, number, number]];
  mesh.positions.forEach((value, i) => {
    min[i % 3] = Math.min(min[i % 3] as number, value);
    max[i % 3] = Math.max(max[i % 3] as number, value);
  });
  return { min, max };
}

export const vertices = (mesh: Mesh): Vec3[] =>
  Array.from({ length: mesh.positions.length / 3 }, (_, i) => [
    mesh.positions[3 * i] as number,
    mesh.positions[3 * i + 1] as number,
    mesh.positions[3 * i + 2] as number,
  ]);
