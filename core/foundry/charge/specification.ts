/** What an alloy's melt must hold of each element, and what of it burns off. Mass %. */
import type { Alloy, ElementSymbol } from '../alloys/index.js';
import type { AlloyingLimits, StockMetal } from './alloying-programme.js';
import { usualElementLoss } from './alloying-programme.js';

export type Specification = AlloyingLimits['target'];

/** The element a metal has most of. */
export const mostOf = ({ composition }: Pick<StockMetal, 'composition'>): ElementSymbol =>
  (Object.entries(composition) as [ElementSymbol, number][]).reduce((a, b) => (b[1] > a[1] ? b : a))[0];

/** The element there is most of: the rest is alloyed to it. */
export const mainElement = ({ composition }: Pick<Alloy, 'composition'>): ElementSymbol =>
  (Object.entries(composition) as [ElementSymbol, { readonly nominal: number }][]).reduce((a, b) =>
    b[1].nominal > a[1].nominal ? b : a,
  )[0];

/**
 * Limits of each element. The specification's own where it sets any; else, and for a shop's own alloy, nominal ± a
 * tenth of it, or half a point (but not more than half of it) where that is wider: as wide as the table's limits run,
 * no source. The main element is the balance, free unless the specification limits it.
 */
export function specificationOf(alloy: Pick<Alloy, 'composition'>): Specification {
  const main = mainElement(alloy);
  const shares = Object.entries(alloy.composition) as [
    ElementSymbol,
    { readonly nominal: number; readonly min?: number; readonly max?: number },
  ][];
  return Object.fromEntries(
    shares.flatMap(([element, { nominal, min, max }]) => {
      if (min !== undefined || max !== undefined)
        return [[element, { ...(min === undefined ? {} : { min }), ...(max === undefined ? {} : { max }) }]];
      if (element === main) return [[element, {}]];
      if (nominal === 0) return [];
      const give = Math.max(nominal / 10, Math.min(0.5, nominal / 2));
      return [[element, { min: nominal - give, max: Math.min(100, nominal + give) }]];
    }),
  );
}

/**
 * Fractions of the elements lost in this alloy's melt: the usual ones, but the main element loses no more than the
 * alloy's own melt does. Zinc alloys, poured far under zinc's boiling point, do not fume as brass does.
 */
export function elementLosses(
  alloy: Pick<Alloy, 'composition' | 'meltLoss'>,
): Readonly<Record<ElementSymbol, number>> {
  const main = mainElement(alloy);
  return { ...usualElementLoss, [main]: Math.min(usualElementLoss[main], alloy.meltLoss.usual) };
}
