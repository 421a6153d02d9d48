import type { ExactMesh, Mesh, Vec3 } from '../../solid/types.js';
import type { MeshRemark } from '../health/remark.js';
import { checkSize } from './check-size.js';
import { sizeFigure, sizeText } from './words.js';

/** The side of the box that a known length is of. */
export const boxSides = ['x', 'y', 'z', 'longest', 'middle', 'shortest'] as const;
export type BoxSide = (typeof boxSides)[number];

export type Scaling =
  | {
      readonly ok: true;
      /** Every coordinate times this. */
      readonly factor: number;
      /** After it, mm. */
      readonly size: Vec3;
      /** A sentence: what is scaled, and to what size. */
      readonly reason: string;
    }
  | { readonly ok: false; readonly fault: MeshRemark };

/**
 * The factor by which one side of the mesh's box becomes a known length.
 *
 * @param known mm
 */
export function scaleTo(mesh: Pick<Mesh | ExactMesh, 'positions'>, known: number, along: BoxSide): Scaling {
  const size = boxSize(mesh);
  const refuse = (code: string, message: string): Scaling => ({
    ok: false,
    fault: { code, message, count: 1 },
  });
  if (!(known > 0 && Number.isFinite(known)))
    return refuse('bad-length', `The known length is ${known} mm; it must be more than 0.`);
  const side = sideOf(size, along);
  if (!(side > 0 && Number.isFinite(side)))
    return refuse(
      'no-side',
      `The box's ${words[along]} is ${side}; it cannot be scaled to ${sizeFigure(known)} mm.`,
    );
  const factor = known / side;
  const scaled: Vec3 = [size[0] * factor, size[1] * factor, size[2] * factor];
  const absurd = checkSize(scaled);
  if (absurd)
    return refuse(
      absurd.code,
      `With its ${words[along]} scaled to ${sizeFigure(known)} mm the mesh is ${sizeText(scaled)}. ${absurd.message}`,
    );
  return {
    ok: true,
    factor,
    size: scaled,
    reason: `Scaled by ${sizeFigure(factor)}, so that its ${words[along]} is ${sizeFigure(known)} mm: ${sizeText(scaled)} in all.`,
  };
}

/** Sides of the box about all vertices. */
export function boxSize({ positions }: Pick<Mesh | ExactMesh, 'positions'>): Vec3 {
  const side = (k: number): number => {
    let [least, most] = [Infinity, -Infinity];
    for (let i = k; i < positions.length; i += 3) {
      if (positions[i]! < least) least = positions[i]!;
      if (positions[i]! > most) most = positions[i]!;
    }
    return positions.length === 0 ? 0 : most - least;
  };
  return [side(0), side(1), side(2)];
}

/** Every coordinate times a factor, in double precision. */
export function scaleExactMesh({ positions, triangles }: ExactMesh, factor: number): ExactMesh {
  return { positions: positions.map((v) => v * factor), triangles };
}

const words: Readonly<Record<BoxSide, string>> = {
  x: 'length along x',
  y: 'length along y',
  z: 'length along z',
  longest: 'longest side',
  middle: 'middle side',
  shortest: 'shortest side',
};

function sideOf(size: Vec3, along: BoxSide): number {
  const [shortest, middle, longest] = size.toSorted((a, b) => a - b) as [number, number, number];
  const sides = { x: size[0], y: size[1], z: size[2], longest, middle, shortest };
  return sides[along];
}
