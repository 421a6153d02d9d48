import { FormatError } from '../format-error.js';
import type { MeshLimits } from './limits.js';

const inWords = (count: number): string => count.toLocaleString('en-GB');

/** @throws FormatError for more triangles than are taken. */
export function checkTriangles(count: number, limits: MeshLimits): void {
  if (count <= limits.triangles) return;
  throw new FormatError(
    'mesh-large',
    `The file has ${inWords(count)} triangles or more; at most ${inWords(limits.triangles)} are read.`,
    'Thin the mesh out before it is exported: a tenth of a millimetre is fine enough for casting.',
  );
}

/** @throws FormatError for more vertices than are taken. */
export function checkVertices(count: number, limits: MeshLimits): void {
  if (count <= limits.vertices) return;
  throw new FormatError(
    'mesh-large',
    `The file has ${inWords(count)} vertices or more; at most ${inWords(limits.vertices)} are read.`,
    'Thin the mesh out before it is exported: a tenth of a millimetre is fine enough for casting.',
  );
}

/** @throws FormatError for a mesh without triangles. */
export function checkNotEmpty(triangles: number, what: string): void {
  if (triangles > 0) return;
  throw new FormatError(
    'mesh-empty',
    `The file has no triangles${what}.`,
    'Export the surface of the part as a mesh of triangles.',
  );
}

/** @throws FormatError for more objects, components and build items of a package than are taken. */
export function checkPlacings(count: number, limits: MeshLimits): void {
  if (count <= limits.placings) return;
  throw new FormatError(
    'mesh-large',
    `The package has or places more than ${inWords(limits.placings)} objects.`,
    'Export the part alone.',
  );
}
