import type { JobFlask } from './job.js';
import { child, type JobReader, nodeIs, type Path } from './job-reader.js';
import { flaskFields, longestTitle, mostFlasks } from './job-schema.js';
import type { Place } from './read-shop.js';
import type { YamlNode } from './yaml-tree.js';

/** The flasks that the job or the shop owns, or null for the built-in list. */
export function readFlasks({ reader, node, path }: Place): readonly JobFlask[] | null {
  const at = [...path, 'flasks'];
  const items = reader.list(node, at, mostFlasks, 'flasks');
  if (items === undefined) return null;
  if (items.length === 0) {
    reader.refuse('missing', at, undefined, 'is an empty list', 'list a flask, or leave the key out');
  }
  const seen = new Map<string, Path>();
  return items.flatMap((item, i) => readFlask(reader, item, [...at, String(i)], seen) ?? []);
}

function readFlask(
  reader: JobReader,
  item: YamlNode,
  path: Path,
  seen: Map<string, Path>,
): JobFlask | undefined {
  if (item.kind !== 'map') {
    reader.refuse('wrong-type', path, item, nodeIs(item), 'give name, diameter and height');
    return undefined;
  }
  reader.checkKeys(item, path, ['name', 'diameter', 'height', 'wall', 'base']);
  for (const key of ['name', 'diameter', 'height']) {
    if (child(item, key) === undefined) reader.missing([...path, key], 'give a name and the inside sizes');
  }
  const name = reader.text(item, [...path, 'name'], longestTitle);
  if (name !== undefined)
    reader.checkUnique(seen, name, [...path, 'name'], 'give every flask a name of its own');
  const { diameter, height, wall, base } = reader.fields(flaskFields, item, path, false) ?? {};
  if (name === undefined || diameter === undefined || height === undefined) return undefined;
  if (wall === undefined || base === undefined) return undefined;
  return { name, diameter, height, wall, base };
}
