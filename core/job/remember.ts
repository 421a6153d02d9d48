/** Gives what was made before from the same things, or makes it. What `from` holds must go into JSON without loss. */
export type Remember = <T>(from: readonly unknown[], make: () => T) => T;

/** Makes everything anew. */
export const forgetful: Remember = (_from, make) => make();

/** Keeps the last `most` results, by what they were made from. */
export function rememberLast(most: number): Remember {
  const kept = new Map<string, unknown>();
  return <T>(from: readonly unknown[], make: () => T): T => {
    const key = JSON.stringify(from);
    const value = kept.has(key) ? (kept.get(key) as T) : make();
    kept.delete(key);
    kept.set(key, value);
    for (const oldest of kept.keys()) {
      if (kept.size <= most) break;
      kept.delete(oldest);
    }
    return value;
  };
}

let lastSerial = 0;
const serials = new WeakMap<object, number>();

/** A number that stands for a large immutable thing, such as a mesh, in `from`: the same for the same object. */
export function serialOf(thing: object): number {
  const serial = serials.get(thing) ?? ++lastSerial;
  serials.set(thing, serial);
  return serial;
}
