import type { Mesh } from '../../core/solid/types.js';

export type Segment = readonly [x0: number, y0: number, x1: number, y1: number];

/** Where the plane z = `height` cuts the triangles, in double precision; knows nothing of the kernel. */
export function sliceMesh({ positions, triangles }: Mesh, height: number): readonly Segment[] {
  const segments: Segment[] = [];
  for (let t = 0; t < triangles.length; t += 3) {
    const hits: number[] = [];
    for (let e = 0; e < 3; e++) {
      const i = 3 * (triangles[t + e] as number);
      const j = 3 * (triangles[t + ((e + 1) % 3)] as number);
      const [za, zb] = [(positions[i + 2] as number) - height, (positions[j + 2] as number) - height];
      if (za < 0 === zb < 0) continue;
      const f = za / (za - zb);
      hits.push(
        (positions[i] as number) + f * ((positions[j] as number) - (positions[i] as number)),
        (positions[i + 1] as number) + f * ((positions[j + 1] as number) - (positions[i + 1] as number)),
      );
    }
    if (hits.length === 4) segments.push(hits as unknown as Segment);
  }
  return segments;
}
