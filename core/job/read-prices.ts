import { readFields } from '../part/parameters.js';
import { type Parsed, parsed, unparsed } from '../units/index.js';
import type { JobPrices } from './job.js';
import type { JobContext } from './job-context.js';
import { child, type JobReader, type Path, present } from './job-reader.js';
import { priceFields } from './job-schema.js';
import { toPlain, type YamlMap, type YamlNode } from './yaml-tree.js';

/** The job's prices, or null. One metal price stands for every alloy of the job. */
export function readPrices(
  reader: JobReader,
  root: YamlNode,
  context: JobContext,
  alloys: ReadonlySet<string>,
): JobPrices | null {
  const group = reader.group(root, ['prices']);
  if (group === undefined) return null;
  reader.checkKeys(group, ['prices'], ['currency', 'metalPerKg', 'investmentPerKg', 'plasticPerKg']);
  const currency = readCurrency(reader, group);
  const metal = child(group, 'metalPerKg');
  const byAlloy = metal?.kind === 'map' ? readMetalPrices(reader, metal, context, alloys) : undefined;
  const scalars = byAlloy === undefined ? group : withoutKey(group, 'metalPerKg');
  const { metalPerKg, ...others } = reader.fields(priceFields, scalars, ['prices'], false) ?? {};
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

function readCurrency(reader: JobReader, group: YamlNode): string {
  if (child(group, 'currency') === undefined) {
    reader.missing(['prices', 'currency'], 'write three capital letters, like EUR');
  }
  return reader.checked(group, ['prices', 'currency'], parseCurrency, 'unreadable') ?? '';
}

/** Prices by alloy: every alloy the job uses must have one, or the cost would be short. */
function readMetalPrices(
  reader: JobReader,
  metal: YamlMap,
  context: JobContext,
  alloys: ReadonlySet<string>,
): Readonly<Record<string, number>> {
  const path = ['prices', 'metalPerKg'];
  reader.checkKeys(metal, path, context.knownAlloys);
  for (const alloy of alloys) {
    if (child(metal, alloy) !== undefined) continue;
    reader.refuse('missing', path, metal, `has no price for ${alloy}`, `add ${alloy}: and its price`);
  }
  const prices = metal.entries.flatMap(({ key, value }) => {
    const price = readMetalPrice(reader, value, [...path, key]);
    return price === undefined ? [] : [[key, price] as const];
  });
  return Object.fromEntries(prices);
}

function readMetalPrice(reader: JobReader, value: YamlNode, path: Path): number | undefined {
  const reading = readFields(priceFields, { metalPerKg: toPlain(value) }, { lengthUnit: reader.lengthUnit });
  if (reading.ok) return reading.values.metalPerKg;
  for (const problem of reading.problems) reader.report({ ...problem, path });
  return undefined;
}
