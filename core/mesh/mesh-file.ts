import type { ExactMesh } from '../solid/types.js';

export const meshFormats = ['stl', '3mf', 'obj', 'ply'] as const;
export type MeshFormat = (typeof meshFormats)[number];

/** A mesh as its file gives it: in the file's own unit and axes, nothing joined or mended. */
export interface MeshFile {
  readonly format: MeshFormat;
  /** mm in one unit of the file; null where the format names none. */
  readonly unit: number | null;
  readonly mesh: ExactMesh;
}
