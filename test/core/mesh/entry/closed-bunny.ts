import { createRequire } from 'node:module';
import type { Mesh } from '../../../../core/solid/types.js';

const bunny = createRequire(import.meta.url)('bunny') as {
  readonly positions: readonly (readonly [number, number, number])[];
  readonly cells: readonly (readonly [number, number, number])[];
};

/** The Stanford bunny of the `bunny` package, z up, its holes closed crudely by fans, `height` mm high on z = 0. */
export function closedBunny(height: number): Mesh {
  const points = bunny.positions.map(([x, y, z]) => [x, -z, y] as const) as (readonly [
    number,
    number,
    number,
  ])[];
  const cells = bunny.cells.map((c) => [...c]);
  const sides = new Set(cells.flatMap(([a, b, c]) => [`${a} ${b}`, `${b} ${c}`, `${c} ${a}`]));
  const next = new Map<number, number>();
  for (const side of sides) {
    const [a, b] = side.split(' ').map(Number) as [number, number];
    if (!sides.has(`${b} ${a}`)) next.set(b, a);
  }
  for (const start of [...next.keys()]) {
    const loop: number[] = [];
    for (let v: number | undefined = start; v !== undefined && next.has(v); ) {
      loop.push(v);
      const after: number | undefined = next.get(v);
      next.delete(v);
      v = after;
    }
    if (loop.length === 0) continue;
    const middle = [0, 1, 2].map((k) => loop.reduce((sum, v) => sum + points[v]![k]!, 0) / loop.length);
    const centre = points.push(middle as unknown as readonly [number, number, number]) - 1;
    loop.forEach((v, i) => {
      cells.push([v, loop[(i + 1) % loop.length]!, centre]);
    });
  }
  const zs = points.map((p) => p[2]);
  const [low, high] = [Math.min(...zs), Math.max(...zs)];
  const scale = height / (high - low);
  return {
    positions: Float32Array.from(points.flatMap(([x, y, z]) => [x * scale, y * scale, (z - low) * scale])),
    triangles: Uint32Array.from(cells.flat()),
  };
}
