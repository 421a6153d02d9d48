/** Work on many items, a few at a time. */

/** Does something with each item, at most so many at a time, and gives the results in the order of the items. */
export async function doAll<T, R>(
  items: readonly T[],
  most: number,
  each: (item: T, index: number) => Promise<R>,
): Promise<readonly R[]> {
  const results: R[] = [];
  let next = 0;
  const work = async (): Promise<void> => {
    while (next < items.length) {
      const i = next++;
      results[i] = await each(items[i] as T, i).catch((error: unknown) => {
        // The others begin nothing more.
        next = items.length;
        throw error;
      });
    }
  };
  await Promise.all(Array.from({ length: Math.min(most, items.length) }, work));
  return results;
}

/** The same one after the other: of results that are not yet taken there are never more than `most`. */
export async function* inOrder<T, R>(
  items: Iterable<T>,
  most: number,
  each: (item: T) => Promise<R>,
): AsyncGenerator<R> {
  const begun: Promise<R>[] = [];
  try {
    for (const item of items) {
      const result = each(item);
      // Its failure is told when it is taken.
      result.catch(() => undefined);
      begun.push(result);
      if (begun.length >= most) yield await (begun.shift() as Promise<R>);
    }
    while (begun.length > 0) yield await (begun.shift() as Promise<R>);
  } finally {
    await Promise.allSettled(begun);
  }
}
