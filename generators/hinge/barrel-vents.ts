import type { VentPlace } from '../../core/part/contract.js';
import type { Span } from './knuckles.js';

const leastVent = 1.5;
const widestVent = 3;
/** How far a vent on the round of a barrel may be sunk, mm. */
const deepest = 0.2;

/** A vent on top of every knuckle; sunk so far that its foot is all in the metal. Pin's axis along Y at height `axis`. */
export function barrelVents(
  { barrelRadius: radius }: { readonly barrelRadius: number },
  knuckles: readonly Span[],
  axis: number,
): readonly VentPlace[] {
  return knuckles.flatMap(([from, to]): VentPlace[] => {
    const foot = Math.min(widestVent, to - from - 1, Math.sqrt(8 * radius * deepest));
    if (foot < leastVent) return [];
    const sunk = radius - Math.sqrt(radius ** 2 - foot ** 2 / 4);
    return [{ name: 'top of a knuckle', at: [0, (from + to) / 2, axis + radius - sunk], footDiameter: foot }];
  });
}
