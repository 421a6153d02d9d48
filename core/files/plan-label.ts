import type { Vec2 } from '../solid/types.js';

/** How a pattern is named inside its own box. `key` means: a number only, the name stands in the list below. */
export type BoxLabel =
  | {
      readonly kind: 'words';
      readonly lines: readonly string[];
      readonly size: number;
      readonly leading: number;
    }
  | { readonly kind: 'key'; readonly size: number; readonly leading: number };

const leading = 1.2;
/** Widest a character of a plain sans serif is on average, in units of its size; W and M are wider, i and l less. */
const characterWidth = 0.62;
/** Share of the box that text may take. */
const fill = 0.9;
/** Names smaller than this share of the plan's text size go to the list. */
const smallest = 0.75;

/**
 * Fits name and copy number into the box: name broken at its hyphens over up to three lines, `no. 2` under it.
 * Since boxes do not overlap, neither do labels.
 */
export function fitLabel(
  box: { readonly min: Vec2; readonly max: Vec2 },
  words: { readonly name: string; readonly copy: number },
  textSize: number,
): BoxLabel {
  const width = (box.max[0] - box.min[0]) * fill;
  const height = (box.max[1] - box.min[1]) * fill;
  const sizeFor = (lines: readonly string[]): number =>
    Math.min(
      textSize,
      width / (Math.max(...lines.map((l) => l.length)) * characterWidth),
      height / (lines.length * leading),
    );
  let best: BoxLabel = { kind: 'key', size: sizeFor(['88']), leading };
  let bestSize = textSize * smallest;
  for (const count of [1, 2, 3]) {
    const lines = [...breakName(words.name, count), `no. ${words.copy}`];
    const size = sizeFor(lines);
    if (size > bestSize + 1e-9 || (best.kind === 'key' && size >= bestSize)) {
      best = { kind: 'words', lines, size, leading };
      bestSize = size;
    }
  }
  return best;
}

/** Breaks a name after its hyphens or spaces into at most `count` lines, the longest as short as can be. */
export function breakName(name: string, count: number): readonly string[] {
  const pieces = name.match(/[^-\s_]+[-\s_]*|[-\s_]+/g) ?? [name];
  if (count === 1 || pieces.length === 1) return [name];
  let best: readonly string[] = [name];
  for (let i = 1; i < pieces.length; i++) {
    const lines = [pieces.slice(0, i).join('').trim(), ...breakName(pieces.slice(i).join(''), count - 1)];
    if (longest(lines) < longest(best)) best = lines;
  }
  return best;
}

const longest = (lines: readonly string[]): number => Math.max(...lines.map((l) => l.length));
