import type { Summary } from '../job/summary.js';

const plural = (n: number, one: string): string => `${n} ${one}${n === 1 ? '' : 's'}`;

/** `2 of 40 parts`; where several hang on trees, which are no parts of their own, `2 parts, 3 of 40 castings`. */
export function shareNotMade({ notMade = [], parts }: Pick<Summary, 'notMade' | 'parts'>): string {
  if (parts.every((p) => p.members === undefined))
    return `${notMade.length} of ${plural(notMade.length + parts.length, 'part')}`;
  const castings = (of: readonly { readonly quantity: number }[]): number =>
    of.reduce((sum, p) => sum + p.quantity, 0);
  const gone = castings(notMade);
  return `${plural(notMade.length, 'part')}, ${gone} of ${plural(gone + castings(parts), 'casting')}`;
}
