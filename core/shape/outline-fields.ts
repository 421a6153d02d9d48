import { SolidError } from '../solid/errors.js';
import type { Vec2, Vec3 } from '../solid/types.js';
import type { Field } from './field.js';
import { type Outline, type OutlinePiece, pieceAt, pieceEnd, pieceStart } from './outline.js';
import { outlineDistance } from './outline-distance.js';

/** How a plate stands in a field, mm: rounded at top and bottom, or sharp where something cuts it later. */
export interface PlateField {
  readonly outline: Outline;
  readonly z0: number;
  readonly z1: number;
  readonly topRadius: number;
  readonly bottomRadius: number;
}

/**
 * A plate with rounded edges. Outer corners in plan must have at least the radius of the edges, else the distance
 * would not be true there.
 *
 * @throws SolidError `bad-size` when the edges do not fit the height or the corners
 */
export function plateField(plate: PlateField): Field {
  const { outline, z0, z1, topRadius, bottomRadius } = plate;
  if (topRadius + bottomRadius > z1 - z0 + 1e-9)
    throw new SolidError(
      'bad-size',
      `a plate ${z1 - z0} mm thick cannot have edges of ${topRadius} and ${bottomRadius} mm`,
    );
  const most = Math.max(topRadius, bottomRadius);
  for (const piece of outline)
    if (piece.kind === 'arc' && piece.sweep > 0 && piece.radius < most - 1e-9)
      throw new SolidError(
        'bad-size',
        `a corner of ${piece.radius} mm is too tight for an edge of ${most} mm`,
      );
  const flat = outlineDistance(outline);
  const middle = (z0 + bottomRadius + z1 - topRadius) / 2;
  const distance: Field['distance'] = (x, y, z, g) => {
    const d = flat(x, y, g);
    const up = z >= middle;
    const r = up ? topRadius : bottomRadius;
    const a = d + r;
    const b = up ? z - (z1 - r) : z0 + r - z;
    const sign = up ? 1 : -1;
    if (a > 0 && b > 0) {
      const length = Math.sqrt(a * a + b * b);
      g[0] = (g[0]! * a) / length;
      g[1] = (g[1]! * a) / length;
      g[2] = (sign * b) / length;
      return length - r;
    }
    if (a >= b) {
      g[2] = 0;
      return d;
    }
    g[0] = 0;
    g[1] = 0;
    g[2] = sign;
    return b - r;
  };
  const [min, max] = outlineBounds(outline);
  return {
    distance,
    bounds: { min: [min[0], min[1], z0], max: [max[0], max[1], z1] },
    detail: (z1 - z0) / 2,
  };
}

/**
 * A profile of [r, z] turned about the Z axis through `at`. The closed profile runs counter-clockwise in (r, z); its
 * pieces along the axis bound nothing. Edges of the profile stay as they are: round them, for a smooth mesh.
 */
export function turnedField(profile: Outline, at: Vec3 = [0, 0, 0]): Field {
  const onAxis = (piece: OutlinePiece): boolean =>
    piece.kind === 'line' && Math.abs(pieceStart(piece)[0]) < 1e-9 && Math.abs(pieceEnd(piece)[0]) < 1e-9;
  const flat = outlineDistance(profile, onAxis);
  const distance: Field['distance'] = (x, y, z, g) => {
    const [px, py] = [x - at[0], y - at[1]];
    const r = Math.sqrt(px * px + py * py);
    const d = flat(r, z - at[2], g);
    const [gr, gz] = [g[0]!, g[1]!];
    g[0] = r > 0 ? (gr * px) / r : gr;
    g[1] = r > 0 ? (gr * py) / r : 0;
    g[2] = gz;
    return d;
  };
  const [min, max] = outlineBounds(profile);
  const detail = Math.min(max[0], ...profile.map((p) => (p.kind === 'arc' ? p.radius : max[0])));
  return {
    distance,
    bounds: {
      min: [at[0] - max[0], at[1] - max[0], at[2] + min[1]],
      max: [at[0] + max[0], at[1] + max[0], at[2] + max[1]],
    },
    detail,
  };
}

function outlineBounds(outline: Outline): readonly [Vec2, Vec2] {
  // Arcs bulge past their ends: the circle's axis points within the sweep count too.
  const points = outline.flatMap((piece): Vec2[] => {
    const ends = [pieceStart(piece), pieceEnd(piece)];
    if (piece.kind === 'line') return ends;
    const hand = Math.sign(piece.sweep);
    const bulges = [0, 1, 2, 3].flatMap((quarter) => {
      const full = 2 * Math.PI;
      const turned = (((hand * (quarter * (Math.PI / 2) - piece.start)) % full) + full) % full;
      return turned <= hand * piece.sweep ? [pieceAt(piece, turned / (hand * piece.sweep))] : [];
    });
    return [...ends, ...bulges];
  });
  const of = (pick: typeof Math.min, k: 0 | 1): number => pick(...points.map((p) => p[k]));
  return [
    [of(Math.min, 0), of(Math.min, 1)],
    [of(Math.max, 0), of(Math.max, 1)],
  ];
}
