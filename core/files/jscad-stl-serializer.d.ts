/** The binary writer of @jscad/stl-serializer, which ships no types. */
declare module '@jscad/stl-serializer/CSGToStlb.js' {
  export function serializeBinary(
    objects: readonly unknown[],
    options: { statusCallback?: (status: { progress: number }) => void },
  ): [header: ArrayBuffer, count: ArrayBuffer, triangles: ArrayBuffer];
}
