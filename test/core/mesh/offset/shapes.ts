import type { Kernel, Mesh, Solid, Vec3 } from '../../../../core/solid/types.js';

export const meshOf = (kernel: Kernel, make: () => Solid): Mesh => kernel.scope(() => make().mesh());

/** Unit normal and centre of each triangle. */
export function facesOf({ positions: p, triangles: t }: Mesh): { n: Vec3; c: Vec3 }[] {
  return Array.from({ length: t.length / 3 }, (_, f) => {
    const [a, b, c] = [0, 1, 2].map((k) =>
      Array.from(p.subarray(3 * t[3 * f + k]!, 3 * t[3 * f + k]! + 3)),
    ) as [number[], number[], number[]];
    const u = b.map((x, k) => x - a[k]!);
    const v = c.map((x, k) => x - a[k]!);
    const n = [u[1]! * v[2]! - u[2]! * v[1]!, u[2]! * v[0]! - u[0]! * v[2]!, u[0]! * v[1]! - u[1]! * v[0]!];
    const length = Math.hypot(...n);
    return {
      n: n.map((x) => x / length) as unknown as Vec3,
      c: a.map((x, k) => (x + b[k]! + c[k]!) / 3) as unknown as Vec3,
    };
  });
}

export const amountsOf = (mesh: Mesh, amount: (n: Vec3, c: Vec3) => number): Float64Array =>
  Float64Array.from(facesOf(mesh), ({ n, c }) => amount(n, c));

/** Every triangle in four, by the middles of its edges. */
export function subdivide({ positions, triangles }: Mesh): Mesh {
  const p = Array.from(positions);
  const count = positions.length / 3;
  const middles = new Map<number, number>();
  const middle = (a: number, b: number): number => {
    const key = Math.min(a, b) * count + Math.max(a, b);
    let v = middles.get(key);
    if (v === undefined) {
      v = p.length / 3;
      middles.set(key, v);
      for (let k = 0; k < 3; k++) p.push((p[3 * a + k]! + p[3 * b + k]!) / 2);
    }
    return v;
  };
  const t: number[] = [];
  for (let f = 0; f < triangles.length; f += 3) {
    const [a, b, c] = [triangles[f]!, triangles[f + 1]!, triangles[f + 2]!];
    const [x, y, z] = [middle(a, b), middle(b, c), middle(c, a)];
    t.push(a, x, z, x, b, y, z, y, c, x, y, z);
  }
  return { positions: Float32Array.from(p), triangles: Uint32Array.from(t) };
}

/** A torus about Z by its rings; corners on the true surface. */
export function torus(kernel: Kernel, radius: number, tube: number, tolerance: number): Mesh {
  const n = 96;
  const profile = Array.from({ length: n }, (_, i): [number, number] => [
    radius + tube * Math.cos((2 * Math.PI * i) / n),
    tube * Math.sin((2 * Math.PI * i) / n),
  ]);
  return meshOf(kernel, () => kernel.revolve(profile, tolerance));
}

/** The corners of a mesh, mm. */
export function verticesOf({ positions: p }: Mesh): Vec3[] {
  return Array.from({ length: p.length / 3 }, (_, v) => [p[3 * v]!, p[3 * v + 1]!, p[3 * v + 2]!]);
}
