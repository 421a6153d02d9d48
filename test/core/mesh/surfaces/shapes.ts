import { maths } from '../../../../core/maths/maths.js';
import type { ParameterSchema, PartDefinition } from '../../../../core/part/contract.js';
import { noStock } from '../../../../core/part/stock.js';
import type { Kernel, Mesh, Vec3 } from '../../../../core/solid/types.js';

/** 80 × 50 × 12 with a through bore of 8 at 12, 30, and a blind one of 12, 8 deep, at 60, 20. */
export const plate = (kernel: Kernel): Mesh =>
  kernel.scope(() =>
    kernel
      .box([0, 0, 0], [80, 50, 12])
      .subtract(kernel.frustum([12, 30], -1, 4, 13, 4, 0.01), kernel.frustum([60, 20], 4, 6, 13, 6, 0.01))
      .mesh(),
  );

/** The finished part as a generator makes it; parameters in internal units, the rest by default. */
export const partMesh = <S extends ParameterSchema>(
  kernel: Kernel,
  part: PartDefinition<S>,
  parameters: Record<string, unknown> = {},
): Mesh =>
  kernel.scope(() => {
    const piece = part.pieces?.[0] && { piece: part.pieces[0].name };
    const kit = { kernel, tolerance: 0.01, ...piece };
    const built = part.build(part.parameters.parse(parameters) as never, noStock, kit);
    if (built.solid === null) throw new Error(built.findings.map((f) => f.message).join(' '));
    return built.solid.mesh();
  });

/** Every point through `move`, rounded to single precision. */
export function moved(mesh: Mesh, move: (p: Vec3) => Vec3): Mesh {
  const positions = new Float32Array(mesh.positions.length);
  for (let i = 0; i < positions.length; i += 3)
    positions.set(move([mesh.positions[i]!, mesh.positions[i + 1]!, mesh.positions[i + 2]!]), i);
  return { positions, triangles: mesh.triangles };
}

/** Rotation by a unit quaternion. */
export function turn([w, x, y, z]: readonly [number, number, number, number]): (p: Vec3) => Vec3 {
  return ([a, b, c]) => [
    a * (1 - 2 * (y * y + z * z)) + b * 2 * (x * y - w * z) + c * 2 * (x * z + w * y),
    a * 2 * (x * y + w * z) + b * (1 - 2 * (x * x + z * z)) + c * 2 * (y * z - w * x),
    a * 2 * (x * z - w * y) + b * 2 * (y * z + w * x) + c * (1 - 2 * (x * x + y * y)),
  ];
}

/** Numbers from 0 to 1, the same every time. */
export function chance(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

/** A scan of it: every coordinate off by a normal deviate of standard deviation `sigma`, mm. */
export function scanned(mesh: Mesh, sigma: number, seed: number): Mesh {
  const next = chance(seed);
  const deviate = (): number => Math.sqrt(-2 * Math.log(1 - next())) * maths.cos(2 * Math.PI * next());
  return { ...mesh, positions: mesh.positions.map((v) => v + sigma * deviate()) };
}

/** Edges longer than `most` mm halved until there are none; the surface stays where it is. */
export function refined(mesh: Mesh, most: number): Mesh {
  const points: Vec3[] = [];
  for (let i = 0; i < mesh.positions.length; i += 3)
    points.push([mesh.positions[i]!, mesh.positions[i + 1]!, mesh.positions[i + 2]!]);
  let triangles: (readonly [number, number, number])[] = [];
  for (let i = 0; i < mesh.triangles.length; i += 3)
    triangles.push([mesh.triangles[i]!, mesh.triangles[i + 1]!, mesh.triangles[i + 2]!]);
  const length = (a: number, b: number): number =>
    Math.hypot(...[0, 1, 2].map((k) => points[a]![k]! - points[b]![k]!));
  const key = (a: number, b: number): number => Math.min(a, b) * 1e7 + Math.max(a, b);
  for (;;) {
    const middles = new Map<number, number>();
    for (const t of triangles)
      for (let k = 0; k < 3; k++) {
        const [a, b] = [t[k]!, t[(k + 1) % 3]!];
        if (length(a, b) <= most || middles.has(key(a, b))) continue;
        middles.set(key(a, b), points.length);
        points.push([0, 1, 2].map((j) => (points[a]![j]! + points[b]![j]!) / 2) as unknown as Vec3);
      }
    if (middles.size === 0) break;
    const next: (readonly [number, number, number])[] = [];
    const split = (t: readonly [number, number, number]): void => {
      let [longest, at] = [0, -1];
      for (let k = 0; k < 3; k++) {
        const edge = length(t[k]!, t[(k + 1) % 3]!);
        if (middles.has(key(t[k]!, t[(k + 1) % 3]!)) && edge > longest) [longest, at] = [edge, k];
      }
      if (at < 0) {
        next.push(t);
        return;
      }
      const [a, b, c] = [t[at]!, t[(at + 1) % 3]!, t[(at + 2) % 3]!];
      const m = middles.get(key(a, b))!;
      split([a, m, c]);
      split([m, b, c]);
    };
    for (const t of triangles) split(t);
    triangles = next;
  }
  return { positions: Float32Array.from(points.flat()), triangles: Uint32Array.from(triangles.flat()) };
}

/** Triangles in another order, each beginning at another corner; `order[i]` is the old number of triangle i. */
export function shuffled(
  mesh: Mesh,
  seed: number,
): { readonly mesh: Mesh; readonly order: readonly number[] } {
  const next = chance(seed);
  const order = Array.from({ length: mesh.triangles.length / 3 }, (_, i) => i);
  for (let i = order.length - 1; i > 0; i--) {
    const j = Math.floor(next() * (i + 1));
    [order[i], order[j]] = [order[j]!, order[i]!];
  }
  const triangles = new Uint32Array(mesh.triangles.length);
  order.forEach((from, to) => {
    const first = Math.floor(3 * next());
    for (let k = 0; k < 3; k++) triangles[3 * to + k] = mesh.triangles[3 * from + ((first + k) % 3)]!;
  });
  return { mesh: { positions: mesh.positions, triangles }, order };
}
