import type { GrowthChoice } from '../foundry/growth.js';
import type { PartDefinition } from '../part/contract.js';
import { gatingFields } from './gating-schema.js';
import type { JobPart, StockOverrides } from './job.js';
import { isPartFile, type JobContext } from './job-context.js';
import { child, type JobReader, nodeIs, type Path } from './job-reader.js';
import * as schema from './job-schema.js';
import type { OpenedSource } from './open-source.js';
import { present } from './present.js';
import { readDefinition, readPartParameters, scalarText } from './read-definition.js';
import { gatingSettingsOf } from './read-gating.js';
import { mostMembers, readTree } from './read-tree.js';
import { parseSafeName } from './safe-name.js';
import { writtenEntry } from './written-entry.js';
import type { YamlNode } from './yaml-tree.js';

const uniqueName = 'give every pattern its own name, or raise the quantity';

/** What the job sets for all its parts. */
export interface CommonToParts {
  readonly alloy: string;
  readonly growth: GrowthChoice | undefined;
  readonly stock: StockOverrides;
  /** Whether small patterns are to be put on trees. */
  readonly isPacked: boolean;
}

/** The paths of part files that a job names, in its order. Unreadable jobs name none: reading the job tells why. */
export function partFilesOf(opened: OpenedSource): readonly string[] {
  const list = opened.ok ? child(opened.root, 'parts') : undefined;
  const items = list?.kind === 'list' ? list.items.slice(0, schema.mostParts) : [];
  const members = items.flatMap((item) => {
    const tree = child(item, 'tree');
    return tree?.kind === 'list' ? [item, ...tree.items.slice(0, mostMembers)] : [item];
  });
  return [...new Set(members.map((item) => scalarText(item, 'part')).filter(isPartFile))];
}

/** The parts, each with what the job sets for all merged in. */
export function readParts(
  reader: JobReader,
  root: YamlNode,
  context: JobContext,
  common: CommonToParts,
): readonly JobPart[] {
  const remedy = 'list at least one part';
  const items = reader.list(root, ['parts'], schema.mostParts, 'parts');
  if (child(root, 'parts') === undefined) reader.missing(['parts'], remedy);
  if (items?.length === 0) reader.refuse('missing', ['parts'], undefined, 'is an empty list', remedy);
  const seen = new Map<string, Path>();
  return (items ?? []).flatMap((item, i) =>
    readPart(reader, item, ['parts', String(i)], context, common, seen),
  );
}

/** One entry of the list: a part cast in one, one piece of a part, or all its pieces. */
function readPart(
  reader: JobReader,
  item: YamlNode,
  path: Path,
  context: JobContext,
  common: CommonToParts,
  seen: Map<string, Path>,
): readonly JobPart[] {
  if (item.kind !== 'map') {
    reader.refuse('wrong-type', path, item, nodeIs(item), 'give name, part and parameters');
    return [];
  }
  if (child(item, 'tree') !== undefined) {
    const trees = readTree(reader, item, path, context, common);
    for (const { name } of trees) reader.checkUnique(seen, name, [...path, 'name'], uniqueName);
    return trees;
  }
  reader.checkKeys(item, path, [...schema.partWords, ...Object.keys(schema.partFields.shape)]);
  const name = reader.name(item, [...path, 'name'], 'name this pattern, like crank-wheel');
  const own = reader.fields(schema.partFields, item, path, false);
  const alloy = reader.word(item, [...path, 'alloy'], context.knownAlloys, 'unknown-alloy') ?? common.alloy;
  const ownStock = reader.fieldGroup(schema.stockFields, item, [...path, 'stock']);
  const gating = gatingSettingsOf(reader.fieldGroup(gatingFields, item, [...path, 'gating']) ?? {});
  const definition = readDefinition(reader, item, [...path, 'part'], context);
  const pieces = definition === undefined ? [] : readPieces(reader, item, path, definition);
  const isWhole = child(item, 'piece') === undefined;
  const named = pieces.map((piece) => ({
    ...(piece === undefined ? {} : { piece }),
    ...(pieces.length > 1 && isWhole && name !== undefined ? { entry: name } : {}),
    name: piece === undefined || !isWhole ? `${name}` : `${name}-${piece}`,
  }));
  if (name !== undefined) {
    const at = [...path, 'name'];
    const tooLong = named.find((p) => !parseSafeName(p.name).ok);
    if (tooLong) reader.refuse('unsafe-name', at, child(item, 'name'), `makes ${tooLong.name}`, 'shorten it');
    else
      for (const p of named.length > 0 ? named : [{ name }]) reader.checkUnique(seen, p.name, at, uniqueName);
  }
  const parameters =
    definition === undefined ? undefined : readPartParameters(reader, item, path, definition, context);
  if (name === undefined || own === undefined || definition === undefined || parameters === undefined)
    return [];
  const growth = own.growth ?? common.growth;
  return named.map((piece) => ({
    ...piece,
    part: isPartFile(scalarText(item, 'part')) ? scalarText(item, 'part') : definition.name,
    quantity: own.quantity,
    ...(own.patternsPerTree === 1 ? {} : { patternsPerTree: own.patternsPerTree }),
    ...(own.gates === undefined ? {} : { gates: own.gates }),
    alloy,
    ...(growth === undefined ? {} : { growth }),
    stock: { ...common.stock, ...present(ownStock ?? {}) },
    ...(Object.keys(gating).length === 0 ? {} : { gating }),
    parameters,
    ...(common.isPacked ? { written: writtenEntry(item) } : {}),
  }));
}

/** The pieces asked for; undefined stands for a part cast in one. */
function readPieces(
  reader: JobReader,
  item: YamlNode,
  path: Path,
  { name, pieces = [] }: PartDefinition,
): readonly (string | undefined)[] {
  const all = pieces.map((piece) => piece.name);
  const node = child(item, 'piece');
  if (node === undefined) return all.length === 0 ? [undefined] : all;
  const at = [...path, 'piece'];
  if (all.length === 0) {
    reader.refuse('unknown-key', at, node, 'does not belong here', `${name} is cast in one piece`);
    return [undefined];
  }
  return [reader.word(item, at, all, 'unknown-choice')];
}
