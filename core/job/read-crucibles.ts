import { bilgeCrucible, type Crucible, measuredCrucible } from '../foundry/charge/crucibles.js';
import { crucibleFields } from './crucible-schema.js';
import { child, type JobReader, type Path } from './job-reader.js';
import { longestTitle } from './job-schema.js';
import { readNamedList } from './named-list.js';
import type { Place } from './read-shop.js';
import type { YamlNode } from './yaml-tree.js';

const mostCrucibles = 50;
const cubicMillimetresPerMillilitre = 1000;

const holds = 'a name, and bilge or volume';
const list = { key: 'crucibles', most: mostCrucibles, what: 'crucible', holds } as const;

/** The crucibles the shop owns; undefined for the built-in list. */
export const readCrucibles = (place: Place): readonly Crucible[] | undefined =>
  readNamedList(place, list, (item, path, named) => readCrucible(place.reader, item, path, named));

function readCrucible(
  reader: JobReader,
  item: YamlNode,
  path: Path,
  named: (name: string) => void,
): Crucible | undefined {
  reader.checkKeys(item, path, ['name', ...Object.keys(crucibleFields.shape)]);
  if (child(item, 'name') === undefined) reader.missing([...path, 'name'], `give ${holds}`);
  const name = reader.text(item, [...path, 'name'], longestTitle);
  if (name !== undefined) named(name);
  const fields = reader.fields(crucibleFields, item, path, false);
  if (fields === undefined || name === undefined) return undefined;
  const { bilge, volume, mouth } = fields;
  if ((bilge === undefined) === (volume === undefined)) {
    reader.refuse(
      'missing',
      path,
      item,
      bilge === undefined ? 'has no size' : 'has two sizes',
      'give bilge or volume, one of them',
    );
    return undefined;
  }
  if (volume !== undefined) return measuredCrucible(name, volume * cubicMillimetresPerMillilitre, mouth);
  return { ...bilgeCrucible(bilge as number), name, title: name };
}
