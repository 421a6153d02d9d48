/** Words for a pattern, as lines of one size. */
export interface Wording {
  readonly lines: readonly string[];
  /** Of its letters, mm. */
  readonly size: number;
  /** Room that the lines take, mm. */
  readonly width: number;
  readonly height: number;
}

/** From line to line, in units of the size. */
export const leading = 1.2;
/** Widest a character of a plain sans serif is on average, in units of its size; W and M are wider, i and l less. */
const characterWidth = 0.62;
/** Shares of the plan's text size that words may have, largest first. */
const sizes = [1, 0.87, 0.75] as const;
/** Of keys, which are short. */
const keySizes = [1, 0.8, 0.6] as const;

export const wordingOf = (lines: readonly string[], size: number): Wording => ({
  lines,
  size,
  width: longest(lines) * size * characterWidth,
  height: lines.length * size * leading,
});

/** Name and copy number in all ways they may be written, the largest first, of one size the fewest lines first. */
export function nameWordings(name: string, copy: number, textSize: number): readonly Wording[] {
  const broken = distinct([1, 2, 3].map((count) => breakName(name, count)));
  return sizes.flatMap((share) =>
    broken.map((lines) => wordingOf([...lines, `no. ${copy}`], share * textSize)),
  );
}

/** A short text in all the sizes it may have, largest first. */
export const keyWordings = (key: string, textSize: number): readonly Wording[] =>
  keySizes.map((share) => wordingOf([key], share * textSize));

/** `A` to `Z`, `AA`, `AB` …: what names that are too long for their patterns are called on the plan. */
export const keyOf = (index: number): string =>
  (index < 26 ? '' : keyOf(Math.floor(index / 26) - 1)) + String.fromCharCode(65 + (index % 26));

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
const distinct = (all: readonly (readonly string[])[]): readonly (readonly string[])[] =>
  all.filter((lines, i) => all.findIndex((other) => other.join('\n') === lines.join('\n')) === i);
