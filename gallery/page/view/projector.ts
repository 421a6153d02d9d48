import { Matrix4, type PerspectiveCamera, Vector4 } from 'three';
import type { Vec3 } from '../../../core/solid/types.js';

/** A place in the picture: CSS pixels, y down, and its depth as the graphics card counts it, −1 to 1. */
export interface Seen {
  readonly x: number;
  readonly y: number;
  readonly depth: number;
}

/** Where places in space are in a picture; null for what is behind the reader. */
export type Projector = (at: Vec3) => Seen | null;

export function makeProjector(camera: PerspectiveCamera, width: number, height: number): Projector {
  camera.updateMatrixWorld();
  const matrix = new Matrix4().multiplyMatrices(camera.projectionMatrix, camera.matrixWorldInverse);
  const point = new Vector4();
  return (at) => {
    point.set(at[0], at[1], at[2], 1).applyMatrix4(matrix);
    if (point.w < camera.near * 0.5) return null;
    return {
      x: (0.5 + (0.5 * point.x) / point.w) * width,
      y: (0.5 - (0.5 * point.y) / point.w) * height,
      depth: point.z / point.w,
    };
  };
}
