import { bilgeCrucible, type Crucible, measuredCrucible } from '../foundry/charge/crucibles.js';
import { crucibleFields } from './crucible-schema.js';
import { child, type JobReader, nodeIs, type Path } from './job-reader.js';
import { longestTitle } from './job-schema.js';
import type { Place } from './read-shop.js';
import type { YamlNode } from './yaml-tree.js';

const mostCrucibles = 50;
const cubicMillimetresPerMillilitre = 1000;

/** The crucibles the shop owns; undefined for the built-in list. */
export function readCrucibles({ reader, node, path }: Place): readonly Crucible[] | undefined {
  const at = [...path, 'crucibles'];
  const items = reader.list(node, at, mostCrucibles, 'crucibles');
  if (items === undefined) return undefined;
  if (items.length === 0)
    reader.refuse('missing', at, undefined, 'is an empty list', 'list a crucible, or leave the key out');
  const seen = new Map<string, Path>();
  return items.flatMap((item, i) => readCrucible(reader, item, [...at, String(i)], seen) ?? []);
}

function readCrucible(
  reader: JobReader,
  item: YamlNode,
  path: Path,
  seen: Map<string, Path>,
): Crucible | undefined {
  const remedy = 'give a name, and bilge or volume';
  if (item.kind !== 'map') {
    reader.refuse('wrong-type', path, item, nodeIs(item), remedy);
    return undefined;
  }
  reader.checkKeys(item, path, ['name', ...Object.keys(crucibleFields.shape)]);
  if (child(item, 'name') === undefined) reader.missing([...path, 'name'], remedy);
  const name = reader.text(item, [...path, 'name'], longestTitle);
  if (name !== undefined)
    reader.checkUnique(seen, name, [...path, 'name'], 'give every crucible a name of its own');
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
