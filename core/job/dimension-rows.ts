import type { Dimension } from '../part/contract.js';
import type { Vec3 } from '../solid/types.js';
import type { DimensionRow } from './summary.js';

/**
 * Sets the sizes of part and casting side by side and adds the pattern's: casting times the factor along the
 * dimension's axis. Both states list the same symbols; one that a state lacks is left out.
 * @param factors pattern / casting along x, y, z
 */
export function pairDimensions(
  part: readonly Dimension[],
  casting: readonly Dimension[],
  factors: Vec3,
): readonly DimensionRow[] {
  const factor = { xy: factors[0], z: factors[2], none: 1 } as const;
  return part.flatMap((drawn) => {
    const cast = casting.find((d) => d.symbol === drawn.symbol);
    if (!cast) return [];
    return [
      {
        symbol: drawn.symbol,
        name: drawn.name,
        unit: drawn.unit,
        axis: drawn.axis,
        part: drawn.value,
        casting: cast.value,
        pattern: cast.value * (drawn.unit === 'mm' ? factor[drawn.axis] : 1),
        method: cast.method,
      },
    ];
  });
}
