import type { Mesh, Vec3 } from '../../solid/types.js';
import type { MeshRemark } from '../health/remark.js';

/** A mesh after one step of repair, and what the step did; null for nothing. */
export interface Step {
  readonly mesh: Mesh;
  readonly done: MeshRemark | null;
}

/** A remark with or without a place. */
export const remark = (code: string, count: number, message: string, at?: Vec3): MeshRemark => ({
  code,
  message,
  count,
  ...(at ? { at } : {}),
});
