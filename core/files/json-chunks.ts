/**
 * The text of `JSON.stringify(value, null, 2)` in pieces: each field of an object, and each entry of a list in such a
 * field, by itself, so that a long list never stands in memory as one text.
 * @param value plain data
 */
export function* jsonChunks(value: object): Generator<string> {
  yield* chunksOf(value, '', 2);
}

function* chunksOf(value: unknown, indent: string, depth: number): Generator<string> {
  if (depth === 0 || typeof value !== 'object' || value === null) {
    // What JSON has no text for is null in a list; a field of it is left out before it comes here.
    yield (JSON.stringify(value, null, 2) ?? 'null').replaceAll('\n', `\n${indent}`);
    return;
  }
  const isList = Array.isArray(value);
  const entries: readonly (readonly [string, unknown])[] = isList
    ? Array.from(value, (entry: unknown) => ['', entry] as const)
    : Object.entries(value)
        .filter(
          ([, field]) => field !== undefined && typeof field !== 'function' && typeof field !== 'symbol',
        )
        .map(([name, field]) => [`${JSON.stringify(name)}: `, field] as const);
  const [open, close] = isList ? ['[', ']'] : ['{', '}'];
  const inner = `${indent}  `;
  for (const [i, [name, entry]] of entries.entries()) {
    yield `${i === 0 ? open : ','}\n${inner}${name}`;
    yield* chunksOf(entry, inner, depth - 1);
  }
  yield entries.length === 0 ? `${open}${close}` : `\n${indent}${close}`;
}
