/**
 * A reader of binary STL from its published layout alone (80 byte header, uint32 count, per triangle a normal and
 * three corners as little-endian float32, and a uint16). Shares nothing with the program.
 */
export interface StlContent {
  readonly header: string;
  readonly count: number;
  /** Nine numbers a triangle. */
  readonly corners: Float32Array;
  /** Three numbers a triangle. */
  readonly normals: Float32Array;
}

export function readBinaryStl(bytes: Uint8Array): StlContent {
  if (bytes.length < 84) throw new Error(`STL of ${bytes.length} bytes`);
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const count = view.getUint32(80, true);
  if (bytes.length !== 84 + 50 * count) {
    throw new Error(`STL of ${bytes.length} bytes says ${count} triangles, which take ${84 + 50 * count}`);
  }
  const corners = new Float32Array(9 * count);
  const normals = new Float32Array(3 * count);
  for (let t = 0; t < count; t++) {
    const at = 84 + 50 * t;
    for (let i = 0; i < 3; i++) normals[3 * t + i] = view.getFloat32(at + 4 * i, true);
    for (let i = 0; i < 9; i++) corners[9 * t + i] = view.getFloat32(at + 12 + 4 * i, true);
  }
  return { header: new TextDecoder('latin1').decode(bytes.subarray(0, 80)), count, corners, normals };
}
