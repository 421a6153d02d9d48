import type { BuiltPart, PartDefinition } from '../../core/part/contract.js';
import { noStock, type Stock } from '../../core/part/stock.js';
import { loadKernel } from '../../core/solid/kernel.js';
import type { Mesh, Vec3 } from '../../core/solid/types.js';
import { type Overlaps, overlapsOf, type Pose } from '../helpers/overlap-volume.js';

const kernel = await loadKernel();

/** A casting in one state, its solid turned into plain data. */
export interface BuiltPiece extends Omit<BuiltPart, 'solid'> {
  readonly mesh: Mesh;
  readonly volume: number;
}

export function pieceOf(
  definition: PartDefinition,
  piece: string,
  given: Record<string, unknown> = {},
  stock: Partial<Stock> = {},
  tolerance = 0.01,
): BuiltPiece {
  return kernel.scope(() => {
    const parameters = definition.parameters.parse(given);
    const built = definition.build(parameters, { ...noStock, ...stock }, { kernel, tolerance, piece });
    if (built.solid === null) throw new Error(`refused: ${built.findings.map((f) => f.code).join(', ')}`);
    const { solid, ...notes } = built;
    return { ...notes, mesh: solid.mesh(), volume: solid.volume() };
  });
}

/** `severity code` of every finding, refused or not. */
export function codesOf(
  definition: PartDefinition,
  piece: string,
  given: Record<string, unknown>,
  stock: Partial<Stock> = {},
): string[] {
  return kernel.scope(() => {
    const parameters = definition.parameters.parse(given);
    const { findings } = definition.build(
      parameters,
      { ...noStock, ...stock },
      { kernel, tolerance: 0.05, piece },
    );
    return findings.map((f) => `${f.severity} ${f.code}`);
  });
}

export const pieceSize = (built: BuiltPiece, symbol: string): number => {
  const found = built.dimensions.find((d) => d.symbol === symbol);
  if (!found) throw new Error(`no dimension ${symbol}`);
  return found.value;
};

/** A mesh with every corner moved. */
const moved = (mesh: Mesh, move: (p: Vec3) => Vec3): Mesh => {
  const positions = new Float32Array(mesh.positions.length);
  for (let i = 0; i < positions.length; i += 3)
    positions.set(
      move([mesh.positions[i] as number, mesh.positions[i + 1] as number, mesh.positions[i + 2] as number]),
      i,
    );
  return { positions, triangles: mesh.triangles };
};

export interface Assembly {
  /** Common volume of the leaves opened by an angle, mm³. */
  readonly overlap: (angle: number) => number;
  /** Least distance of the leaves, mm, up to `search`. */
  readonly gap: (angle: number, search?: number) => number;
  readonly free: () => void;
}

/**
 * Two leaves as they lie, their pin's axis along Y at a height each, put on one pin: the first stays, the second, turned
 * half round about Z, is open flat; from there it swings over the top until it is closed at angle 0.
 */
export async function assemble(
  one: Mesh,
  axisOne: number,
  other: Mesh,
  axisOther = axisOne,
): Promise<Assembly> {
  // The pin's axis becomes Z: x stays, −z becomes y, y becomes z.
  const still = moved(one, ([x, y, z]) => [x, axisOne - z, y]);
  const flat = moved(other, ([x, y, z]) => [-x, axisOther - z, -y]);
  const overlaps: Overlaps = await overlapsOf(still, flat);
  const origin: Pose = { turn: 0, by: [0, 0, 0] };
  const pose = (angle: number): Pose => ({ turn: Math.PI - angle, by: [0, 0, 0] });
  return {
    overlap: (angle) => overlaps.at(origin, pose(angle)),
    gap: (angle, search = 1) => overlaps.gap(origin, pose(angle), search),
    free: overlaps.free,
  };
}
