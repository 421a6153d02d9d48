import { checkFinite, checkPositive } from '../../solid/check-input.js';
import { SolidError } from '../../solid/errors.js';
import { isCollapsed } from '../../solid/mesh-topology.js';
import { sortMesh } from '../../solid/sort-mesh.js';
import type { Kernel, Mesh } from '../../solid/types.js';
import { weldMesh } from '../../solid/weld.js';
import { faceNormals } from './face-planes.js';
import { linkHalves } from './halves.js';
import { measureOffset, type OffsetError } from './measure-offset.js';
import { settleMoved } from './settle.js';

export interface OffsetOptions {
  /** How far a corner may miss the moved planes of its triangles, mm, before they are joined one by one; 0.02. */
  readonly tolerance?: number;
  /** How far a mitre may stand out of a sharp edge, in amounts, before it is cut off; 3.5, at least 2. */
  readonly mitreLimit?: number;
  /** Points on the result that the error is measured at; 20,000. */
  readonly samples?: number;
}

/**
 * The body whose every triangle's plane has moved by its own amount: stock on a mesh. Edges stay sharp, flat faces
 * flat; where neighbours nearly in one plane move differently there is a step; slots that close are filled.
 *
 * @param mesh closed, oriented, outward-facing, free of self-intersection (not checked), mm
 * @param amounts mm a triangle, all of them 0 or more (outward) or all 0 or less (inward)
 * @throws SolidError `bad-size` for amounts that are not finite, of both signs or the wrong number; `bad-mesh` for an
 * open mesh; `empty-result` where an inward offset leaves nothing
 */
export function offsetMesh(
  kernel: Kernel,
  mesh: Mesh,
  amounts: Float64Array,
  options: OffsetOptions = {},
): { readonly mesh: Mesh; readonly error: OffsetError } {
  const tolerance = checkPositive(options.tolerance ?? 0.02, 'offset tolerance');
  const mitreLimit = checkPositive(options.mitreLimit ?? 3.5, 'offset mitre limit');
  if (mitreLimit < 2)
    throw new SolidError('bad-size', `offset mitre limit is ${mitreLimit}; it must be 2 or more`);
  const inward = signOf(mesh, amounts) < 0;
  const { positions, t, sizes } = takeIn(mesh, amounts, inward);
  const p = Float64Array.from(positions);
  const halves = linkHalves(t, positions.length / 3);
  const normals = faceNormals(p, halves);
  const planes = sizes.map((d, f) => {
    const v = 3 * t[3 * f]!;
    return d + p[v]! * normals[3 * f]! + p[v + 1]! * normals[3 * f + 1]! + p[v + 2]! * normals[3 * f + 2]!;
  });
  const input = { p, halves, normals, amounts: sizes, planes, tolerance, mitreLimit };
  if (!sizes.some((d) => d > 0)) return { mesh: sortMesh(weldMesh(mesh)), error: noError };
  let best: { readonly mesh: Mesh; readonly error: OffsetError } | null = null;
  const most = sizes.reduce((a, b) => Math.max(a, b), 0);
  for (const { mesh: raw, ...told } of settleMoved(kernel, input, inward)) {
    const result = sortMesh(raw);
    const error = { ...measureOffset(input, result, inward, options.samples ?? 20_000), ...told };
    if (!best || error.mean < best.error.mean) best = { mesh: result, error };
    if (error.max <= Math.max(tolerance, 0.1 * most)) break;
  }
  if (!best)
    throw new SolidError(
      'not-carriable',
      'offset: no sound surface could be made; check that the mesh does not cross itself',
    );
  return best;
}

const noError: OffsetError = {
  max: 0,
  mean: 0,
  at: [0, 0, 0],
  samples: 0,
  apart: 0,
  bevelled: 0,
  steps: 0,
  joined: 0,
  short: 0,
};

/** −1 for an inward offset, else 1. */
function signOf(mesh: Mesh, amounts: Float64Array): number {
  if (amounts.length !== mesh.triangles.length / 3)
    throw new SolidError(
      'bad-size',
      `offset: ${amounts.length} amounts for ${mesh.triangles.length / 3} triangles; one each is needed`,
    );
  let [least, most] = [0, 0];
  for (const amount of amounts) {
    checkFinite(amount, 'offset amount');
    least = Math.min(least, amount);
    most = Math.max(most, amount);
  }
  if (least < 0 && most > 0)
    throw new SolidError(
      'bad-size',
      `offset: amounts from ${least} to ${most} mm; they must all go outward or all inward`,
    );
  return least < 0 ? -1 : 1;
}

/** Corners joined, triangles without area by their corners left out, and turned over for an inward offset. */
function takeIn(mesh: Mesh, amounts: Float64Array, inward: boolean) {
  const { positions, triangles } = weldMesh(mesh);
  const t = new Uint32Array(triangles.length);
  const sizes = new Float64Array(amounts.length);
  let size = 0;
  for (let f = 0; f < triangles.length; f += 3) {
    if (isCollapsed(triangles, f)) continue;
    t[3 * size] = triangles[inward ? f + 1 : f]!;
    t[3 * size + 1] = triangles[inward ? f : f + 1]!;
    t[3 * size + 2] = triangles[f + 2]!;
    sizes[size++] = Math.abs(amounts[f / 3]!);
  }
  return { positions, t: t.slice(0, 3 * size), sizes: sizes.slice(0, size) };
}
