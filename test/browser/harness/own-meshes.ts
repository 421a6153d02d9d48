/** Mesh files as readers have them. */

/** A closed block with one corner at the origin as binary STL, its sizes in the file's unit. */
export function blockStl(x: number, y: number, z: number): Buffer {
  // Corner k has x where bit 0 is set, y where bit 1 is, z where bit 2 is; counter-clockwise from outside.
  const faces = [
    [0, 2, 3, 1],
    [4, 5, 7, 6],
    [0, 1, 5, 4],
    [2, 6, 7, 3],
    [0, 4, 6, 2],
    [1, 3, 7, 5],
  ] as const;
  const triangles = faces.flatMap(([a, b, c, d]) => [
    [a, b, c],
    [a, c, d],
  ]);
  const bytes = Buffer.alloc(84 + 50 * triangles.length);
  bytes.writeUInt32LE(triangles.length, 80);
  for (const [t, corners] of triangles.entries())
    for (const [i, k] of corners.entries()) {
      const at = 84 + 50 * t + 12 + 12 * i;
      bytes.writeFloatLE(k & 1 ? x : 0, at);
      bytes.writeFloatLE(k & 2 ? y : 0, at + 4);
      bytes.writeFloatLE(k & 4 ? z : 0, at + 8);
    }
  return bytes;
}

/** As Playwright puts a file into a dialog. */
export const meshFile = (name: string, buffer: Buffer) => ({ name, mimeType: 'model/stl', buffer });
