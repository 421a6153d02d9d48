import { plusMinusOf } from '../foundry/casting-tolerance.js';
import type { Dimension } from '../part/contract.js';
import type { Vec3 } from '../solid/types.js';
import type { DimensionRow } from './summary.js';

/**
 * Sets the sizes of part and casting side by side and adds the pattern's: casting times the factor along the
 * dimension's axis, or what the dimension itself makes of growth. Both states list the same symbols; one that a
 * state lacks is left out, and of several ways to measure one thing the first that all states have stays.
 * @param factors pattern / casting along x, y, z: growth times printer correction
 * @param growth the part of it that is growth: what the print measures when the printer has made its error
 */
export function pairDimensions(
  part: readonly Dimension[],
  casting: readonly Dimension[],
  factors: Vec3,
  growth: number,
): readonly DimensionRow[] {
  const chosen = new Set<string>();
  return part.flatMap((drawn) => {
    if (drawn.choice !== undefined && chosen.has(drawn.choice)) return [];
    const cast = casting.find((d) => d.symbol === drawn.symbol);
    const row = cast && pairOne(drawn, cast, factors, growth);
    if (!row) return [];
    if (drawn.choice !== undefined) chosen.add(drawn.choice);
    return [row];
  });
}

function pairOne(drawn: Dimension, cast: Dimension, factors: Vec3, growth: number): DimensionRow | undefined {
  const factor = drawn.unit === 'mm' ? { xy: factors[0], z: factors[2], none: 1 }[drawn.axis] : 1;
  const pattern = cast.atGrowth ? cast.atGrowth(factor) : cast.value * factor;
  const printed = cast.atGrowth?.(growth);
  if (pattern === undefined || (cast.atGrowth && printed === undefined)) return undefined;
  const tolerance = drawn.unit === 'mm' && !drawn.role ? plusMinusOf(cast.value) : undefined;
  return {
    symbol: drawn.symbol,
    name: drawn.name,
    unit: drawn.unit,
    axis: drawn.axis,
    part: drawn.value,
    casting: cast.value,
    pattern,
    method: cast.method,
    ...(printed === undefined ? {} : { printed }),
    ...(tolerance === undefined ? {} : { castingTolerance: tolerance }),
    ...(drawn.detail ? { detail: true } : {}),
    ...(drawn.role ? { role: drawn.role } : {}),
  };
}
