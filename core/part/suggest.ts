/** Finding the name that was meant. */

/**
 * Damerau–Levenshtein distance: the least number of insertions, deletions, substitutions and transpositions of
 * neighbours that turn `a` into `b`, where a transposed pair may be edited further. (Lowrance and Wagner, "An
 * extension of the string-to-string correction problem", J. ACM 22, 1975.)
 */
export function editDistance(a: string, b: string): number {
  const [rows, columns] = [a.length + 2, b.length + 2];
  const far = a.length + b.length;
  const table = new Int32Array(rows * columns);
  table[0] = far;
  for (let i = 0; i <= a.length; i++) {
    table[(i + 1) * columns] = far;
    table[(i + 1) * columns + 1] = i;
  }
  for (let j = 0; j <= b.length; j++) {
    table[j + 1] = far;
    table[columns + j + 1] = j;
  }
  const lastRowOf = new Map<string, number>();
  for (let i = 1; i <= a.length; i++) {
    let lastMatch = 0;
    for (let j = 1; j <= b.length; j++) {
      const row = lastRowOf.get(b[j - 1]!) ?? 0;
      const column = lastMatch;
      const cost = a[i - 1] === b[j - 1] ? 0 : 1;
      if (cost === 0) lastMatch = j;
      table[(i + 1) * columns + j + 1] = Math.min(
        table[i * columns + j]! + cost,
        table[(i + 1) * columns + j]! + 1,
        table[i * columns + j + 1]! + 1,
        table[row * columns + column]! + (i - row - 1) + 1 + (j - column - 1),
      );
    }
    lastRowOf.set(a[i - 1]!, i);
  }
  return table[rows * columns - 1]!;
}

const longestWord = 64;

/** How many slips are forgiven in a word of this length. */
const forgiven = (length: number): number => (length <= 3 ? 1 : length <= 6 ? 2 : 3);

const plain = (word: string): string => word.toLowerCase().replace(/[^a-z0-9]/g, '');

/**
 * The known name nearest to `word`, if any is near: few slips away, or else the only one that has the word in it
 * (`module` for `normalModule`). Case and hyphens do not count. The first of equally near names wins.
 */
export function suggest(word: string, known: readonly string[]): string | undefined {
  const wanted = plain(word);
  if (wanted === '' || word.length > longestWord) return undefined;
  let best: string | undefined;
  let least = forgiven(wanted.length) + 1;
  for (const name of known) {
    const candidate = plain(name);
    if (Math.abs(candidate.length - wanted.length) >= least) continue;
    const distance = editDistance(wanted, candidate);
    if (distance < least && distance < candidate.length) [best, least] = [name, distance];
  }
  if (best !== undefined || wanted.length < 3) return best;
  const containing = known.filter((name) => plain(name).includes(wanted));
  return containing.length === 1 ? containing[0] : undefined;
}

/** `did you mean teeth?`, or else what there is to choose from. */
export function suggestRemedy(word: string, known: readonly string[]): string {
  const nearest = suggest(word, known);
  if (nearest !== undefined) return `did you mean ${nearest}?`;
  const shown = known.slice(0, 12).join(', ');
  return known.length > 12 ? `known are ${shown} and ${known.length - 12} more` : `known are ${shown}`;
}
