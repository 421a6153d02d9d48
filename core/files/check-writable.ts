import type { Mesh } from '../solid/types.js';
import { FormatError } from './format-error.js';

/** No pattern is a kilometre: beyond this float32 has no useful digits left and products of lengths overflow. */
const greatestCoordinate = 1e6;

/**
 * Refuses what no mesh file can carry: no triangles, indices that name no vertex, coordinates that are not
 * finite. Says nothing about being closed.
 */
export function checkWritable(mesh: Mesh): void {
  const vertices = mesh.positions.length / 3;
  if (mesh.triangles.length === 0) {
    throw new FormatError('mesh-empty', 'The mesh has no triangles.', 'Give a solid with a volume.');
  }
  if (mesh.triangles.length % 3 !== 0 || !Number.isInteger(vertices)) {
    throw new FormatError(
      'mesh-index',
      `The mesh has ${mesh.triangles.length} indices and ${mesh.positions.length} coordinates.`,
      'Both must be multiples of three.',
    );
  }
  mesh.triangles.forEach((v, i) => {
    if (v >= vertices) {
      throw new FormatError(
        'mesh-index',
        `Triangle ${Math.floor(i / 3)} names vertex ${v} of ${vertices}.`,
        'Indices run from 0 to the number of vertices less one.',
      );
    }
  });
  mesh.positions.forEach((x, i) => {
    if (!(Math.abs(x) <= greatestCoordinate)) {
      throw new FormatError(
        'mesh-number',
        `Vertex ${Math.floor(i / 3)} has the coordinate ${x}.`,
        `Coordinates are finite, up to ${greatestCoordinate} mm.`,
      );
    }
  });
}
