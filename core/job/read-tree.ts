/** An entry of a job that is a tree of several kinds of pattern. */
import { mostOnTree } from '../foundry/gating/index.js';
import type { PartDefinition } from '../part/contract.js';
import { gatingFields } from './gating-schema.js';
import { type JobPart, type TreeMember, treePart } from './job.js';
import { isPartFile, type JobContext } from './job-context.js';
import { child, type JobReader, nodeIs, type Path, showNode } from './job-reader.js';
import * as schema from './job-schema.js';
import { present } from './present.js';
import { readDefinition, readPartParameters, scalarText } from './read-definition.js';
import { gatingSettingsOf } from './read-gating.js';
import type { CommonToParts } from './read-parts.js';
import { parseSafeName } from './safe-name.js';
import type { YamlNode } from './yaml-tree.js';

/** Kinds that are looked at in one list. */
export const mostMembers = 100;

/** Keys of a part by itself that a tree leaves to its members, or has no use for. */
const notOfTrees: Readonly<Record<string, string>> = {
  part: 'the tree lists its patterns: give each its own part',
  piece: 'give each pattern of the tree its own piece',
  preset: 'give each pattern of the tree its own preset',
  parameters: 'give each pattern of the tree its own parameters',
  patternsPerTree: 'give each pattern of the tree its count',
  gates: 'on a tree of several kinds each pattern has one gate',
};

/** None where something is wrong with it, which is then reported. */
export function readTree(
  reader: JobReader,
  item: YamlNode,
  path: Path,
  context: JobContext,
  common: CommonToParts,
): readonly JobPart[] {
  const foreign = Object.entries(notOfTrees).filter(([key]) => child(item, key) !== undefined);
  for (const [key, remedy] of foreign)
    reader.refuse('unknown-key', [...path, key], child(item, key), 'does not belong beside tree', remedy);
  reader.checkKeys(item, path, [
    ...schema.treeWords,
    ...Object.keys(schema.treeFields.shape),
    ...foreign.map(([key]) => key),
  ]);
  const name = reader.name(item, [...path, 'name'], 'name this tree, like locker-tree');
  const own = reader.fields(schema.treeFields, item, path, false);
  const alloy = reader.word(item, [...path, 'alloy'], context.knownAlloys, 'unknown-alloy') ?? common.alloy;
  const stock = {
    ...common.stock,
    ...present(reader.fieldGroup(schema.stockFields, item, [...path, 'stock']) ?? {}),
  };
  const gating = gatingSettingsOf(reader.fieldGroup(gatingFields, item, [...path, 'gating']) ?? {});
  if ((gating.gates ?? 1) > 1)
    reader.refuse(
      'out-of-range',
      [...path, 'gating', 'gates'],
      child(child(item, 'gating') as YamlNode, 'gates'),
      `is ${gating.gates}`,
      `${notOfTrees.gates}: leave it out`,
    );
  const at = [...path, 'tree'];
  const items = reader.list(item, at, mostMembers, 'patterns');
  const growth = own?.growth ?? common.growth;
  const seen = new Map<string, Path>();
  const members = (items ?? []).map((member, i) =>
    readMember(reader, member, [...at, String(i)], context, { alloy, stock, growth }, seen),
  );
  const read = members.filter((member) => member !== undefined);
  if (items === undefined || read.length < members.length) return [];
  const count = read.reduce((sum, member) => sum + member.count, 0);
  if (count < 2 || count > mostOnTree) {
    const has = count === 0 ? 'is an empty list' : `holds ${count} ${count === 1 ? 'pattern' : 'patterns'}`;
    reader.refuse(
      'out-of-range',
      at,
      child(item, 'tree'),
      has,
      `from 2 to ${mostOnTree} on a tree, by their counts`,
    );
    return [];
  }
  if (name === undefined || own === undefined || foreign.length > 0 || (gating.gates ?? 1) > 1) return [];
  return [
    {
      name,
      part: treePart,
      tree: read,
      quantity: own.quantity * count,
      patternsPerTree: count,
      alloy,
      ...(growth === undefined ? {} : { growth }),
      stock,
      ...(Object.keys(gating).length === 0 ? {} : { gating }),
      parameters: {},
    },
  ];
}

function readMember(
  reader: JobReader,
  item: YamlNode,
  path: Path,
  context: JobContext,
  common: Omit<CommonToParts, 'isPacked'>,
  seen: Map<string, Path>,
): TreeMember | undefined {
  if (item.kind !== 'map') {
    reader.refuse('wrong-type', path, item, nodeIs(item), 'give part, count and parameters');
    return undefined;
  }
  reader.checkKeys(item, path, [...schema.memberWords, ...Object.keys(schema.memberFields.shape)]);
  const own = reader.fields(schema.memberFields, item, path, false);
  checkAlloy(reader, item, path, common.alloy);
  const stock = reader.fieldGroup(schema.stockFields, item, [...path, 'stock']);
  const definition = readDefinition(reader, item, [...path, 'part'], context);
  const piece = definition && readPiece(reader, item, path, definition);
  const name = readName(reader, item, path, piece);
  if (name !== undefined)
    reader.checkUnique(
      seen,
      name,
      [...path, 'name'],
      'give every pattern of a tree its own name, or raise its count',
    );
  const parameters = definition && readPartParameters(reader, item, path, definition, context);
  if (name === undefined || own === undefined || definition === undefined || parameters === undefined)
    return undefined;
  const growth = own.growth ?? common.growth;
  return {
    name,
    part: isPartFile(scalarText(item, 'part')) ? scalarText(item, 'part') : definition.name,
    ...(piece === undefined ? {} : { piece }),
    count: own.count,
    ...(growth === undefined ? {} : { growth }),
    stock: { ...common.stock, ...present(stock ?? {}) },
    parameters,
  };
}

/** Left out, it is called after its part, and its piece. */
function readName(
  reader: JobReader,
  item: YamlNode,
  path: Path,
  piece: string | undefined,
): string | undefined {
  const part = scalarText(item, 'part');
  const own = piece === undefined ? part : `${part}-${piece}`;
  return child(item, 'name') === undefined && parseSafeName(own).ok
    ? own
    : reader.name(item, [...path, 'name'], 'name this pattern, like knob');
}

/** One pour fills all of a tree. */
function checkAlloy(reader: JobReader, item: YamlNode, path: Path, alloy: string): void {
  const node = child(item, 'alloy');
  if (node === undefined || scalarText(item, 'alloy') === alloy) return;
  const is = `is ${showNode(node)}, the tree's is ${alloy}`;
  const remedy = 'one pour fills the whole tree: leave it out, or put the pattern on a tree of its own alloy';
  reader.refuse('tree-alloy', [...path, 'alloy'], node, is, remedy);
}

/** A part of several castings hangs on a tree piece by piece. */
function readPiece(
  reader: JobReader,
  item: YamlNode,
  path: Path,
  { name, pieces = [] }: PartDefinition,
): string | undefined {
  const all = pieces.map((piece) => piece.name);
  const at = [...path, 'piece'];
  const node = child(item, 'piece');
  if (all.length === 0) {
    if (node !== undefined)
      reader.refuse('unknown-key', at, node, 'does not belong here', `${name} is cast in one piece`);
    return undefined;
  }
  if (node === undefined) {
    reader.missing(
      at,
      `${name} is cast in ${all.length} pieces, give each a line of its own: ${all.join(', ')}`,
    );
    return undefined;
  }
  return reader.word(item, at, all, 'unknown-choice');
}
