import { listSchemaFields } from '../part/field-list.js';
import { readFields } from '../part/parameters.js';
import { type Parsed, parsed, unparsed } from '../units/index.js';
import type { JobPrices } from './job.js';
import type { JobContext } from './job-context.js';
import { child, type JobReader, type Path } from './job-reader.js';
import { priceFields } from './job-schema.js';
import { present } from './present.js';
import type { Place } from './read-shop.js';
import { toPlain, type YamlMap, type YamlNode } from './yaml-tree.js';

/**
 * The prices of the job or its shop, or null. One metal price stands for every alloy of the job. A job's list of
 * metals must name every alloy it uses, or the cost would be short; a shop's need not.
 */
export function readPrices(
  place: Place,
  context: JobContext,
  alloys: ReadonlySet<string>,
  isJobs: boolean,
): JobPrices | null {
  const { reader } = place;
  const path = [...place.path, 'prices'];
  const group = reader.group(place.node, path);
  if (group === undefined) return null;
  reader.checkKeys(group, path, ['currency', ...listSchemaFields(priceFields).map((f) => f.name)]);
  const currency = readCurrency(reader, group, path);
  const metal = child(group, 'metalPerKg');
  const needed = isJobs ? alloys : new Set<string>();
  const byAlloy = metal?.kind === 'map' ? readMetalPrices(reader, metal, path, context, needed) : undefined;
  const scalars = byAlloy === undefined ? group : withoutKey(group, 'metalPerKg');
  const { metalPerKg, ...others } = reader.fields(priceFields, scalars, path, false) ?? {};
  const everyAlloy =
    metalPerKg === undefined ? {} : Object.fromEntries([...alloys].map((a) => [a, metalPerKg]));
  return { currency, metalPerKg: byAlloy ?? everyAlloy, ...present(others) };
}

const withoutKey = (node: YamlNode, key: string): YamlNode =>
  node.kind === 'map' ? { ...node, entries: node.entries.filter((entry) => entry.key !== key) } : node;

const parseCurrency = (text: string): Parsed<string> =>
  /^[A-Z]{3}$/.test(text)
    ? parsed(text)
    : unparsed('is no currency code', 'write three capital letters, like EUR');

function readCurrency(reader: JobReader, group: YamlNode, prices: Path): string {
  const path = [...prices, 'currency'];
  if (child(group, 'currency') === undefined) reader.missing(path, 'write three capital letters, like EUR');
  return reader.checked(group, path, parseCurrency, 'unreadable') ?? '';
}

/** Prices by alloy; each of `alloys` must have one. */
function readMetalPrices(
  reader: JobReader,
  metal: YamlMap,
  prices: Path,
  context: JobContext,
  alloys: ReadonlySet<string>,
): Readonly<Record<string, number>> {
  const path = [...prices, 'metalPerKg'];
  reader.checkKeys(metal, path, context.knownAlloys);
  for (const alloy of alloys) {
    if (child(metal, alloy) !== undefined) continue;
    reader.refuse('missing', path, metal, `has no price for ${alloy}`, `add ${alloy}: and its price`);
  }
  const read = metal.entries.flatMap(({ key, value }) => {
    const price = readMetalPrice(reader, value, [...path, key]);
    return price === undefined ? [] : [[key, price] as const];
  });
  return Object.fromEntries(read);
}

function readMetalPrice(reader: JobReader, value: YamlNode, path: Path): number | undefined {
  const reading = readFields(priceFields, { metalPerKg: toPlain(value) }, { lengthUnit: reader.lengthUnit });
  if (reading.ok) return reading.values.metalPerKg;
  for (const problem of reading.problems) reader.report({ ...problem, path });
  return undefined;
}
