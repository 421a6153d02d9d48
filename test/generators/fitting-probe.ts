import { expect } from 'vitest';
import type { BuildResult, BuiltPart, PartDefinition } from '../../core/part/contract.js';
import { noStock, type Stock } from '../../core/part/stock.js';
import { loadKernel } from '../../core/solid/kernel.js';
import type { Mesh, Polygon, Vec3 } from '../../core/solid/types.js';

const kernel = await loadKernel();

/** A built state with its solid turned into plain data. */
export interface Built extends Omit<BuiltPart, 'solid'> {
  readonly mesh: Mesh;
  readonly volume: number;
  readonly slices: readonly (readonly Polygon[])[];
}

export const tolerance = 0.02;

/** Stock in round figures, different for every class that a deck fitting has. */
export const someStock: Stock = { ...noStock, skin: 0.3, mating: 0.8, bore: 0.4 };

/** Builds and leaves nothing in the kernel: mesh, volume, slices at the heights asked for; or the refusal. */
export function tryBuild(
  part: PartDefinition,
  given: Record<string, unknown> = {},
  stock: Stock = noStock,
  heights: readonly number[] = [],
): Built | Extract<BuildResult, { solid: null }> {
  return kernel.scope(() => {
    const built = part.build(part.parameters.parse(given), stock, { kernel, tolerance });
    if (built.solid === null) return built;
    const { solid, ...notes } = built;
    return {
      ...notes,
      mesh: solid.mesh(),
      volume: solid.volume(),
      slices: heights.map((z) => solid.slice(z)),
    };
  });
}

export function build(...request: Parameters<typeof tryBuild>): Built {
  const built = tryBuild(...request);
  if ('solid' in built) throw new Error(`refused: ${built.findings.map((f) => f.code).join(', ')}`);
  return built;
}

export const sizeOf = (built: Pick<Built, 'dimensions'>, symbol: string): number => {
  const found = built.dimensions.find((d) => d.symbol === symbol);
  if (!found) throw new Error(`no dimension ${symbol}`);
  return found.value;
};

/**
 * Where a straight line along an axis passes through a mesh's surface, in order: calliper and depth gauge. The line
 * must not run along an edge: give it a crooked place.
 */
export function crossings({ positions: p, triangles: t }: Mesh, axis: 0 | 1 | 2, through: Vec3): number[] {
  const [j, k] = [(axis + 1) % 3, (axis + 2) % 3];
  const found: number[] = [];
  for (let f = 0; f < t.length; f += 3) {
    const [a, b, c] = [0, 1, 2].map((n) => 3 * t[f + n]!) as [number, number, number];
    const side = (from: number, to: number): number =>
      (p[to + j]! - p[from + j]!) * (through[k]! - p[from + k]!) -
      (p[to + k]! - p[from + k]!) * (through[j]! - p[from + j]!);
    const [u, v, w] = [side(b, c), side(c, a), side(a, b)];
    if (!((u >= 0 && v >= 0 && w >= 0) || (u <= 0 && v <= 0 && w <= 0)) || u + v + w === 0) continue;
    found.push((u * p[a + axis]! + v * p[b + axis]! + w * p[c + axis]!) / (u + v + w));
  }
  return found.sort((x, y) => x - y);
}

/** The gap (or wall) on a line that holds the given place on it: its two ends, and its width. */
export function gapAt(mesh: Mesh, axis: 0 | 1 | 2, through: Vec3): number {
  const at = crossings(mesh, axis, through);
  const below = at.findLast((x) => x < through[axis]!);
  const above = at.find((x) => x > through[axis]!);
  if (below === undefined || above === undefined) throw new Error('nothing on both sides');
  return above - below;
}

/** Gates and vents, with their radii. */
export const placesOf = ({ gates, vents }: Pick<Built, 'gates' | 'vents'>) => [
  ...gates.map((g) => ({ at: g.at, radius: g.outerDiameter / 2 })),
  ...vents.map((v) => ({ at: v.at, radius: v.footDiameter / 2 })),
];

/** Fails unless gates and vents stand on metal all round, so far under the flat they are on. */
export function expectMetalUnder(built: Built, under = 0.5, least = 2): void {
  for (const { at, radius } of placesOf(built))
    for (let i = 0; i < 24; i++) {
      const angle = (i / 24) * 2 * Math.PI + 0.01;
      const through: Vec3 = [
        at[0] + 0.999 * radius * Math.cos(angle),
        at[1] + 0.999 * radius * Math.sin(angle),
        at[2] - under,
      ];
      expect(gapAt(built.mesh, 2, through)).toBeGreaterThan(least);
    }
}
