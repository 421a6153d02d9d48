import type { JobFlask } from './job.js';
import { child, type JobReader, type Path } from './job-reader.js';
import { flaskFields, longestTitle, mostFlasks } from './job-schema.js';
import { readNamedList } from './named-list.js';
import type { Place } from './read-shop.js';
import type { YamlNode } from './yaml-tree.js';

const list = { key: 'flasks', most: mostFlasks, what: 'flask', holds: 'name, diameter and height' } as const;

/** The flasks that the job or the shop owns, or null for the built-in list. */
export const readFlasks = (place: Place): readonly JobFlask[] | null =>
  readNamedList(place, list, (item, path, named) => readFlask(place.reader, item, path, named)) ?? null;

function readFlask(
  reader: JobReader,
  item: YamlNode,
  path: Path,
  named: (name: string) => void,
): JobFlask | undefined {
  reader.checkKeys(item, path, ['name', 'diameter', 'height', 'wall', 'base']);
  for (const key of ['name', 'diameter', 'height']) {
    if (child(item, key) === undefined) reader.missing([...path, key], 'give a name and the inside sizes');
  }
  const name = reader.text(item, [...path, 'name'], longestTitle);
  if (name !== undefined) named(name);
  const { diameter, height, wall, base } = reader.fields(flaskFields, item, path, false) ?? {};
  if (name === undefined || diameter === undefined || height === undefined) return undefined;
  if (wall === undefined || base === undefined) return undefined;
  return { name, diameter, height, wall, base };
}
