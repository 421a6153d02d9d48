/** Which patterns go on which tree. */
import { mostOnTree } from '../foundry/gating/index.js';

/** Patterns of each kind on one tree, and how many such trees. */
export interface Load {
  readonly counts: readonly number[];
  readonly times: number;
}

/**
 * What a tree with so many of each kind takes: mm³ of slurry, and how much less than its patterns by themselves;
 * undefined where it cannot be had.
 */
export type Trial = (
  counts: readonly number[],
) => { readonly slurry: number; readonly spares: number } | undefined;

/** Trees tried at most: the rest of a large job stays as it is then. */
const mostTrials = 400;

/** Kinds at most of which trees that are all alike are tried. */
const mostAlike = 6;

/** Kinds that do not fit beside those on a tree, one after another, before it is left as it is. */
const mostMisses = 3;

/**
 * Trees of two patterns or more that leave few moulds: filled from the largest kind down, or first with each kind by
 * itself, or all alike, whichever leaves fewer, then less slurry.
 * @param quantities of each kind @param sizes of each kind, to begin with the largest
 */
export function loadTrees(
  quantities: readonly number[],
  sizes: readonly number[],
  trial: Trial,
): readonly Load[] {
  const known = new Map<string, ReturnType<Trial>>();
  let trials = 0;
  const tried: Trial = (counts) => {
    const key = counts.join();
    if (!known.has(key)) {
      if (trials >= mostTrials) return undefined;
      trials++;
      known.set(key, trial(counts));
    }
    return known.get(key);
  };
  const order = quantities.map((_, i) => i).sort((a, b) => (sizes[b] ?? 0) - (sizes[a] ?? 0) || a - b);
  const none = quantities.map(() => 0);
  const plans = [
    () => fillDown(quantities, order, tried),
    () => eachFirst(quantities, order, tried, none),
    // The largest may be too large for trees that are all alike.
    ...(order.length > mostAlike ? [] : order.map((_, i) => () => allAlike(quantities, order, i, tried))),
  ];
  const worth = (loads: readonly Load[]): readonly [moulds: number, spared: number] => {
    const moulds = loads.reduce((n, l) => n - l.times * (l.counts.reduce((a, b) => a + b, 0) - 1), 0);
    const spared = loads.reduce((n, l) => n + l.times * (tried(l.counts)?.spares ?? 0), 0);
    return [moulds, -spared];
  };
  return plans
    .map((make) => make())
    .map((loads) => ({ loads, worth: worth(loads) }))
    .reduce((a, b) =>
      b.worth[0] < a.worth[0] || (b.worth[0] === a.worth[0] && b.worth[1] < a.worth[1] - 1) ? b : a,
    ).loads;
}

/** Tree by tree: the largest kind that is left, as many as fit, then what fits beside, down to the smallest. */
function fillDown(quantities: readonly number[], order: readonly number[], trial: Trial): readonly Load[] {
  const left = [...quantities];
  const loads: Load[] = [];
  for (const first of order)
    while ((left[first] ?? 0) > 0) {
      const counts = fillFrom(first, left, order, trial);
      const number = counts.reduce((a, b) => a + b, 0);
      // By itself: nothing fits beside it.
      if (number < 2) break;
      const times = Math.min(...counts.flatMap((c, k) => (c > 0 ? [Math.floor((left[k] ?? 0) / c)] : [])));
      counts.forEach((c, k) => {
        left[k] = (left[k] ?? 0) - times * c;
      });
      loads.push({ counts, times });
    }
  return loads;
}

/** Full trees of one kind first, then what is over. */
function eachFirst(
  quantities: readonly number[],
  order: readonly number[],
  trial: Trial,
  none: readonly number[],
): readonly Load[] {
  const left = [...quantities];
  const loads = order.flatMap((k): readonly Load[] => {
    const each = mostOf(k, left[k] ?? 0, none, trial);
    if (each < 2) return [];
    const times = Math.floor((left[k] ?? 0) / each);
    left[k] = (left[k] ?? 0) - times * each;
    return [{ counts: withMore(none, k, each), times }];
  });
  return [...loads, ...fillDown(left, order, trial)];
}

/** Trees all alike, as few as can be, of all kinds but the `without` largest; then what is over. */
function allAlike(
  quantities: readonly number[],
  order: readonly number[],
  without: number,
  trial: Trial,
): readonly Load[] {
  const left = [...quantities];
  const on = new Set(order.slice(without));
  const whole = [...on].reduce((sum, k) => sum + (left[k] ?? 0), 0);
  for (let trees = Math.max(1, Math.ceil(whole / mostOnTree)); 2 * trees <= whole; trees++) {
    const counts = left.map((q, k) => (on.has(k) ? Math.ceil(q / trees) : 0));
    const number = counts.reduce((a, b) => a + b, 0);
    if (number < 2) break;
    if (number > mostOnTree || (trial(counts)?.spares ?? -1) < 0) continue;
    const times = Math.min(...counts.flatMap((c, k) => (c > 0 ? [Math.floor((left[k] ?? 0) / c)] : [])));
    counts.forEach((c, k) => {
      left[k] = (left[k] ?? 0) - times * c;
    });
    return [{ counts, times }, ...fillDown(left, order, trial)];
  }
  return fillDown(left, order, trial);
}

function fillFrom(
  first: number,
  left: readonly number[],
  order: readonly number[],
  trial: Trial,
): readonly number[] {
  const none = left.map(() => 0);
  let counts = withMore(none, first, Math.max(1, mostOf(first, left[first] ?? 0, none, trial)));
  let misses = 0;
  for (const k of order) {
    if (k === first || (left[k] ?? 0) === 0) continue;
    const more = mostOf(k, left[k] ?? 0, counts, trial);
    misses = more === 0 ? misses + 1 : 0;
    counts = withMore(counts, k, more);
    if (misses >= mostMisses) break;
  }
  return counts;
}

const withMore = (counts: readonly number[], kind: number, more: number): readonly number[] =>
  counts.map((c, k) => (k === kind ? c + more : c));

/** How many more of a kind go on a tree at most that takes no more slurry; where one number hangs, fewer do. */
function mostOf(kind: number, left: number, counts: readonly number[], trial: Trial): number {
  const on = counts.reduce((a, b) => a + b, 0);
  const having = (more: number) => trial(withMore(counts, kind, more));
  // One pattern alone is no tree.
  const least = on === 0 ? 2 : 1;
  let [low, high] = [least - 1, Math.min(left, mostOnTree - on)];
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if (having(middle) !== undefined) low = middle;
    else high = middle - 1;
  }
  for (let more = low; more >= least; more--) if ((having(more)?.spares ?? -1) >= 0) return more;
  return 0;
}
