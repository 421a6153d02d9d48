/** The name, or the next of `name-2`, `name-3` … that the job has none of. */
export function freeName(name: string, taken: readonly string[]): string {
  for (let n = 1; ; n++) {
    const tried = n === 1 ? name : `${name}-${n}`;
    if (!taken.includes(tried)) return tried;
  }
}
