/** The metals on the shelf: ingot, scrap, master alloys, pure metals. */
import { type Alloy, type ElementSymbol, findAlloy } from '../foundry/alloys/index.js';
import type { StockMetal } from '../foundry/charge/alloying-programme.js';
import { listSchemaFields } from '../part/field-list.js';
import { child, type JobReader, type Path } from './job-reader.js';
import { longestTitle } from './job-schema.js';
import { metalFields } from './metal-schema.js';
import { readNamedList } from './named-list.js';
import { present } from './present.js';
import { readComposition } from './read-composition.js';
import type { Place } from './read-shop.js';
import type { YamlNode } from './yaml-tree.js';

const mostMetals = 200;
const holds = 'a name, and alloy or composition';
const list = { key: 'metals', most: mostMetals, what: 'metal', holds, mayBeEmpty: true } as const;
const keys = ['name', 'alloy', 'composition', ...listSchemaFields(metalFields).map((f) => f.name)];

/**
 * The metals of a job or a shop profile; none where it lists none. A metal that is refused is left out and its problems are with the reader, at file, line and column.
 * @param alloyNames the table's alloys and the shop's own
 */
export const readMetals = (
  place: Place,
  alloyNames: readonly string[],
  ownAlloys: readonly Alloy[],
): readonly StockMetal[] =>
  readNamedList(place, list, (item, path, named) =>
    readMetal(place.reader, item, path, named, alloyNames, ownAlloys),
  ) ?? [];

/** The shop's metals and the job's: one of the same name is the job's. */
export const joinMetals = (
  shop: readonly StockMetal[],
  job: readonly StockMetal[],
): readonly StockMetal[] => [...shop.filter((s) => !job.some((j) => j.name === s.name)), ...job];

function readMetal(
  reader: JobReader,
  item: YamlNode,
  path: Path,
  named: (name: string) => void,
  alloyNames: readonly string[],
  ownAlloys: readonly Alloy[],
): StockMetal | undefined {
  const at = (key: string): Path => [...path, key];
  const before = reader.problems.length;
  reader.checkKeys(item, path, keys);
  if (child(item, 'name') === undefined) reader.missing(at('name'), `give ${holds}`);
  const name = reader.text(item, at('name'), longestTitle);
  if (name !== undefined) named(name);
  const isAlloy = child(item, 'alloy') !== undefined;
  if (isAlloy === (child(item, 'composition') !== undefined))
    reader.refuse(
      'missing',
      path,
      item,
      isAlloy ? 'has an alloy and a composition' : 'does not say what it is',
      'give alloy or composition, one of them',
    );
  const word = reader.word(item, at('alloy'), alloyNames, 'unknown-alloy');
  const given = readComposition(reader, item, at('composition'), {
    least: 1,
    most: 100,
    remedy: 'make it 100 %, or less where some of it is not known',
  });
  const fields = reader.fields(metalFields, item, path, false);
  if (name === undefined || fields === undefined || reader.problems.length > before) return undefined;
  const alloy = word === undefined ? undefined : findAlloy(word, ownAlloys);
  const composition = alloy === undefined ? given : nominalOf(alloy);
  if (composition === undefined) return undefined;
  const { onHand, pricePerKg } = fields;
  return { name, composition, pricePerKg, ...present({ available: onHand }) };
}

/** Of 100 %, since an alloy's nominal figures may miss it by a point. */
function nominalOf({ composition }: Alloy): StockMetal['composition'] {
  const shares = Object.entries(composition) as [ElementSymbol, { readonly nominal: number }][];
  const all = shares.reduce((sum, [, { nominal }]) => sum + nominal, 0);
  return Object.fromEntries(shares.map(([element, { nominal }]) => [element, (100 * nominal) / all]));
}
