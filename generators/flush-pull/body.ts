import type { BuildKit } from '../../core/part/contract.js';
import type { Stock } from '../../core/part/stock.js';
import {
  type Outline,
  obroundOutline,
  overhang,
  plateSolid,
  profileSolid,
  rectangleOutline,
  roundEdge,
} from '../../core/shape/index.js';
import type { Solid } from '../../core/solid/types.js';
import { cupSide, dishProfile, recessSide } from './profile.js';
import { type FlushPullSizes, faceEdge } from './sizes.js';

const outlineOf = (s: FlushPullSizes, length: number, width: number, corner: number): Outline => {
  const half = Math.max(0, (length - width) / 2);
  return s.shape === 'oval'
    ? obroundOutline([-half, 0], [half, 0], width / 2)
    : rectangleOutline([0, 0], length, width, corner);
};

/** The opening in the face, where wall and face would meet without the rounding. */
export const openingOutline = (s: FlushPullSizes): Outline =>
  outlineOf(s, s.recessLength, s.recessWidth, s.recessCorner);

export const plateOutline = (s: FlushPullSizes): Outline =>
  outlineOf(s, s.plateLength, s.plateWidth, s.plateCorner);

/** Plate and cup, less the recess and the tools of the screw holes. */
export function flushPullSolid(
  s: FlushPullSizes,
  stock: Stock,
  tools: readonly Solid[],
  { kernel, tolerance }: BuildKit,
): Solid {
  const plate = plateSolid(
    kernel,
    { outline: plateOutline(s), z0: s.under, z1: s.top, topEdge: roundEdge(faceEdge) },
    tolerance,
    { side: stock.skin, top: stock.face, bottom: stock.mating },
  );
  const opening = openingOutline(s);
  // Into the plate by half, so that the two are one body.
  const cup = profileSolid(kernel, opening, dishProfile(cupSide(s, stock), s.plateThickness / 2), tolerance);
  const recess = profileSolid(kernel, opening, dishProfile(recessSide(s, stock), overhang), tolerance);
  return plate.add(cup).subtract(recess, ...tools);
}
