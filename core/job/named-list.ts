import { nodeIs, type Path } from './job-reader.js';
import type { Place } from './read-shop.js';
import type { YamlNode } from './yaml-tree.js';

export interface NamedList {
  readonly key: string;
  /** Most items. */
  readonly most: number;
  /** One of them, in a word. */
  readonly what: string;
  /** What an item holds: told where one is no group of keys. */
  readonly holds: string;
  readonly mayBeEmpty?: boolean;
}

/**
 * Reads a list of groups that each have a name of their own; undefined where the key is absent. Items that `read`
 * refuses are left out.
 * @param read gets an item, its path, and what to call with its name once that is read
 */
export function readNamedList<T>(
  { reader, node, path }: Place,
  { key, most, what, holds, mayBeEmpty = false }: NamedList,
  read: (item: YamlNode, path: Path, named: (name: string) => void) => T | undefined,
): readonly T[] | undefined {
  const at = [...path, key];
  const items = reader.list(node, at, most, key);
  if (items === undefined) return undefined;
  if (items.length === 0 && !mayBeEmpty)
    reader.refuse('missing', at, undefined, 'is an empty list', `list a ${what}, or leave the key out`);
  const seen = new Map<string, Path>();
  return items.flatMap((item, i) => {
    const here = [...at, String(i)];
    if (item.kind !== 'map') {
      reader.refuse('wrong-type', here, item, nodeIs(item), `give ${holds}`);
      return [];
    }
    const named = (name: string): void =>
      reader.checkUnique(seen, name, [...here, 'name'], `give every ${what} a name of its own`);
    return read(item, here, named) ?? [];
  });
}
