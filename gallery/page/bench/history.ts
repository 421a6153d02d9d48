import type { Sources } from '../work/protocol.js';

/** How many changes can be taken back. */
const mostUndone = 200;

/** What a job was before, and what it was before steps back. */
export interface History {
  readonly past: readonly Sources[];
  readonly future: readonly Sources[];
}

export const noHistory: History = { past: [], future: [] };

/** After a change away from `before`: steps that were taken back are gone. */
export const remembered = ({ past }: History, before: Sources): History => ({
  past: [...past, before].slice(-mostUndone),
  future: [],
});

/** One step back, or forward; undefined where there is none. */
export function stepped(
  { past, future }: History,
  way: 'back' | 'forward',
  now: Sources,
): { readonly history: History; readonly sources: Sources } | undefined {
  const [from, to] = way === 'back' ? [past, future] : [future, past];
  const sources = from.at(-1);
  if (sources === undefined) return undefined;
  const [left, gained] = [from.slice(0, -1), [...to, now]];
  return {
    sources,
    history: way === 'back' ? { past: left, future: gained } : { past: gained, future: left },
  };
}
