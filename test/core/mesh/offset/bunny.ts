import { createRequire } from 'node:module';
import type { Mesh } from '../../../../core/solid/types.js';

const bunny = createRequire(import.meta.url)('bunny') as {
  readonly positions: readonly (readonly [number, number, number])[];
  readonly cells: readonly (readonly [number, number, number])[];
};

/** The Stanford bunny of the sample data, closed where it is open by a fan over each hole, 100 mm high. */
export function bunnyMesh(): Mesh {
  const positions: number[] = bunny.positions.flat();
  const triangles: number[] = bunny.cells.flat();
  const edges = new Set<string>();
  for (const [a, b, c] of bunny.cells) edges.add(`${a},${b}`).add(`${b},${c}`).add(`${c},${a}`);
  const next = new Map<number, number>();
  for (const edge of edges) {
    const [a, b] = edge.split(',').map(Number) as [number, number];
    if (!edges.has(`${b},${a}`)) next.set(b, a);
  }
  while (next.size > 0) {
    const loop: number[] = [];
    for (let v = next.keys().next().value as number; next.has(v); ) {
      loop.push(v);
      const to = next.get(v) as number;
      next.delete(v);
      v = to;
    }
    const middle = positions.length / 3;
    for (let k = 0; k < 3; k++)
      positions.push(loop.reduce((sum, v) => sum + positions[3 * v + k]!, 0) / loop.length);
    loop.forEach((v, i) => {
      triangles.push(v, loop[(i + 1) % loop.length]!, middle);
    });
  }
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let i = 1; i < positions.length; i += 3) {
    low = Math.min(low, positions[i]!);
    high = Math.max(high, positions[i]!);
  }
  return {
    positions: Float32Array.from(positions, (x) => (x * 100) / (high - low)),
    triangles: Uint32Array.from(triangles),
  };
}
