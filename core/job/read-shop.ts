/** A shop profile: a file of its own, or the group `shop` of a job. */
import { plastics } from '../foundry/material.js';
import { child, emptyGroup, JobReader, type Path } from './job-reader.js';
import { longestTitle } from './job-schema.js';
import { present } from './present.js';
import { readCrucibles } from './read-crucibles.js';
import { readOwnAlloys } from './read-own-alloys.js';
import type { Shop } from './shop.js';
import * as schema from './shop-schema.js';
import type { YamlNode } from './yaml-tree.js';

/** A group of keys, who reads it, and where it stands. */
export interface Place {
  readonly reader: JobReader;
  readonly node: YamlNode;
  readonly path: Path;
}

/** The keys of a profile where there is none: all defaults. */
export const noShop = (): Place => ({
  reader: new JobReader('', emptyGroup, () => ({ line: 1, column: 1 })),
  node: emptyGroup,
  path: [],
});

/** Looks at the keys and the unit. Call it first, so that bare lengths are read in the profile's own unit. */
export function checkShopKeys({ reader, node, path }: Place): void {
  reader.checkKeys(node, path, [...schema.shopWords, ...schema.shopGroups, ...schema.sharedGroups]);
  // Within a job the job's unit holds.
  if (path.length > 0) return;
  const unit = reader.word(node, ['units'], ['mm', 'in'], 'unknown-choice');
  if (unit === 'in') reader.lengthUnit = 'in';
}

/** Reads what only a profile has. Undefined if any of it is refused. */
export function readShop(place: Place): Shop | undefined {
  const { reader, node, path } = place;
  const at = (key: string): Path => [...path, key];
  const title = reader.text(node, at('title'), longestTitle);
  const plastic = reader.word(
    node,
    at('plastic'),
    plastics.map((p) => p.name),
    'unknown-plastic',
  );
  const own = reader.fields(schema.shopFields, node, path, false);
  const mixing = reader.fieldGroup(schema.mixingFields, node, at('mixing'));
  const kiln = reader.fieldGroup(schema.kilnFields, node, at('kiln'));
  const furnace = reader.fieldGroup(schema.furnaceFields, node, at('furnace'));
  const crucibles = readCrucibles(place);
  const alloys = readOwnAlloys(place);
  if (own === undefined || mixing === undefined || kiln === undefined || furnace === undefined)
    return undefined;
  const named = title ?? (node === emptyGroup ? undefined : 'own profile');
  return {
    ...present({ title: named }),
    plastic: plastic ?? schema.shopDefaults.plastic,
    ...present(own),
    mixing: present(mixing),
    kiln: present(kiln),
    furnace: present(furnace),
    ...present({ crucibles }),
    alloys,
  };
}

/** Where a key that both may have is read: in the job if it is there, else in the profile. */
export const placeOf = (key: string, job: Place, shop: Place): Place =>
  child(job.node, key) === undefined && child(shop.node, key) !== undefined ? shop : job;

/** What is assumed of a shop that says nothing of itself. */
export const defaultShop = readShop(noShop()) as Shop;
