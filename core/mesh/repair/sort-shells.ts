import type { MeshShell } from '../health/shells.js';

/** What becomes of a closed shell. */
export type ShellFate =
  /** Encloses metal. */
  | 'body'
  /** Encloses a space in the metal. */
  | 'cavity'
  /** Metal within metal: nothing of it shows. */
  | 'swallowed';

export interface SortedShells {
  readonly fates: readonly ShellFate[];
  /** Shells that have to be turned: bodies face outwards, cavities inwards. */
  readonly turned: readonly boolean[];
  /** The body each cavity lies in, or each swallowed shell; −1 for none. */
  readonly parents: readonly number[];
}

/**
 * Sorts closed shells by nesting. What lies in nothing is a body. A shell within a body is a cavity where it faces
 * against it, and metal within metal where it faces as the body does; so with bodies within cavities.
 *
 * @param nesting for each shell those it lies in
 */
export function sortShells(
  shells: readonly MeshShell[],
  nesting: readonly (readonly number[])[],
): SortedShells {
  const fates: ShellFate[] = [];
  const parents: number[] = [];
  const order = [...shells.keys()].sort((a, b) => nesting[a]!.length - nesting[b]!.length || a - b);
  for (const s of order) {
    // The nearest about it that counts.
    const about = nesting[s]!.filter((other) => fates[other] !== 'swallowed').sort(
      (a, b) => Math.abs(shells[a]!.volume) - Math.abs(shells[b]!.volume),
    )[0];
    parents[s] = about ?? -1;
    if (about === undefined) fates[s] = 'body';
    else if (shells[s]!.volume > 0 === shells[about]!.volume > 0) fates[s] = 'swallowed';
    else fates[s] = fates[about] === 'body' ? 'cavity' : 'body';
  }
  const turned = shells.map(({ volume }, s) => (fates[s] === 'cavity' ? volume > 0 : volume < 0));
  return { fates, turned, parents };
}
