/** The alloys a shop adds to the table. */
import { type Alloy, alloyNames, type ElementSymbol, findAlloy } from '../foundry/alloys/index.js';
import { type AlloyOverrides, makeOwnAlloy } from '../foundry/alloys/own-alloy.js';
import { listSchemaFields } from '../part/field-list.js';
import { child, type JobReader, type Path } from './job-reader.js';
import { longestTitle } from './job-schema.js';
import { readNamedList } from './named-list.js';
import { ownAlloyFields } from './own-alloy-schema.js';
import { present } from './present.js';
import { readComposition } from './read-composition.js';
import type { Place } from './read-shop.js';
import type { YamlNode } from './yaml-tree.js';

const mostOwnAlloys = 50;
const wholeComposition = { least: 99, most: 101, remedy: 'make it 100 %, within 1' };
const words = ['name', 'title', 'basedOn', 'composition'];

const list = {
  key: 'alloys',
  most: mostOwnAlloys,
  what: 'alloy',
  holds: 'name, basedOn and what differs',
  mayBeEmpty: true,
} as const;

/**
 * Reads the list at the key `alloys` of a shop profile. An alloy that is refused is left out and its problems are
 * with the reader, at file, line and column.
 */
export const readOwnAlloys = (place: Place): readonly Alloy[] =>
  readNamedList(place, list, (item, path, named) => readOwnAlloy(place.reader, item, path, named)) ?? [];

function readOwnAlloy(
  reader: JobReader,
  item: YamlNode,
  path: Path,
  named: (name: string) => void,
): Alloy | undefined {
  const at = (key: string): Path => [...path, key];
  const before = reader.problems.length;
  reader.checkKeys(item, path, [...words, ...listSchemaFields(ownAlloyFields).map((f) => f.name)]);
  const name = reader.name(item, at('name'), 'give the alloy a name of its own, like harbour-bronze');
  const title = reader.text(item, at('title'), longestTitle);
  if (child(item, 'basedOn') === undefined)
    reader.missing(at('basedOn'), 'name the alloy of the table it is like, for example tin-bronze');
  const basedOn = reader.word(item, at('basedOn'), alloyNames, 'unknown-alloy');
  if (name !== undefined) {
    named(name);
    if (findAlloy(name) !== undefined)
      reader.refuse(
        'duplicate-name',
        at('name'),
        child(item, 'name'),
        `is ${name}, which the table has`,
        'use another name',
      );
    else if (name !== name.toLowerCase())
      reader.refuse(
        'unsafe-name',
        at('name'),
        child(item, 'name'),
        `is ${name}`,
        'write it in small letters',
      );
  }
  const shares = readComposition(reader, item, at('composition'), wholeComposition);
  const fields = reader.fields(ownAlloyFields, item, path, false);
  if (name === undefined || basedOn === undefined || fields === undefined) return undefined;
  if (reader.problems.length > before) return undefined;
  const { density, liquidDensity, ...rest } = fields;
  const perCubicMillimetre = (d: number | undefined): number | undefined => (d === undefined ? d : d / 1000);
  const own: AlloyOverrides = present({
    ...rest,
    composition: shares && nominal(shares),
    density: perCubicMillimetre(density),
    liquidDensity: perCubicMillimetre(liquidDensity),
  });
  const base = findAlloy(basedOn) as Alloy;
  const alloy = makeOwnAlloy(name, title ?? name, base, own);
  checkOrder(reader, item, path, alloy);
  return reader.problems.length > before ? undefined : alloy;
}

const nominal = (shares: Readonly<Partial<Record<ElementSymbol, number>>>): Alloy['composition'] =>
  Object.fromEntries(Object.entries(shares).map(([element, share]) => [element, { nominal: share }]));

/** Temperatures must rise from mould to solidus, liquidus and pour, whoever set them. */
function checkOrder(reader: JobReader, item: YamlNode, path: Path, alloy: Alloy): void {
  const order = [
    ['flaskLow', alloy.flaskRange.thick[0]],
    ['flaskHigh', alloy.flaskRange.thin[1]],
    ['solidus', alloy.solidus],
    ['liquidus', alloy.liquidus],
    ['pourLow', alloy.pourRange.heavy[0]],
    ['pourHigh', alloy.pourRange.light[1]],
  ] as const;
  for (let i = 1; i < order.length; i++) {
    const [[low, a], [high, b]] = [order[i - 1]!, order[i]!];
    if (a <= b) continue;
    const key = child(item, high) === undefined && child(item, low) !== undefined ? low : high;
    reader.refuse(
      'out-of-range',
      [...path, key],
      child(item, key),
      `puts ${low} (${a} °C) over ${high} (${b} °C)`,
      'give temperatures that rise from mould to solidus, liquidus and pour',
    );
  }
}
