/** What the page takes on: a browser's page may have a few GB, and two workers read each file. */
import type { MeshLimits } from '../../../core/files/mesh-read/index.js';

export const megabyte = 2 ** 20;
/** Largest file that is opened here, bytes. */
export const largestFile = 100 * megabyte;
/** Most that all open files may hold, bytes. */
export const mostHeld = 250 * megabyte;

/** In place of the command line's: what the largest binary STL holds, which takes each worker some 200 MB. */
export const pageLimits = {
  fileBytes: largestFile,
  triangles: 2_100_000,
  vertices: 6_300_000,
  unfoldedBytes: 400 * megabyte,
} as const satisfies Partial<MeshLimits>;
