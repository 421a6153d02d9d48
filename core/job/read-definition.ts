/** What an entry of a job makes: the part it names, and its parameters. */
import type { PartDefinition } from '../part/contract.js';
import { listSchemaFields } from '../part/field-list.js';
import { readParameters } from '../part/parameters.js';
import { suggestRemedy } from '../part/suggest.js';
import type { JobPart } from './job.js';
import { isPartFile, type JobContext } from './job-context.js';
import { child, emptyGroup, type JobReader, type Path, showNode } from './job-reader.js';
import { present } from './present.js';
import { toPlain, type YamlNode } from './yaml-tree.js';

const longestName = 10_000;

/** The text at a key; empty where there is none. */
export const scalarText = (item: YamlNode, key: string): string => {
  const node = child(item, key);
  return node?.kind === 'scalar' ? String(node.value).trim() : '';
};

/** The part that an entry names. */
export function readDefinition(
  reader: JobReader,
  item: YamlNode,
  path: Path,
  context: JobContext,
): PartDefinition | undefined {
  const node = child(item, 'part');
  if (node === undefined) reader.missing(path, `name what to make: ${context.partNames.join(', ')}`);
  const text = reader.text(item, path, longestName);
  if (text === undefined) return undefined;
  if (isPartFile(text)) return readPartFile(reader, node!, path, text, context);
  const definition = context.partNames.includes(text) ? context.knownParts(text) : undefined;
  if (definition === undefined) {
    reader.refuse(
      'unknown-part',
      path,
      node,
      `is ${showNode(node!)}`,
      suggestRemedy(text, context.partNames),
    );
  }
  return definition;
}

/** The part that a file gave, or the file's faults where the job names it. */
function readPartFile(
  reader: JobReader,
  node: YamlNode,
  path: Path,
  file: string,
  { partFiles }: JobContext,
): PartDefinition | undefined {
  const reading = partFiles?.get(file);
  if (reading?.ok) return reading.definition;
  if (reading === undefined)
    reader.refuse(
      'part-file',
      path,
      node,
      `is ${showNode(node)}, the path of a part file, which is code and is not run here`,
      'make the job with the command line: patternwright plate',
    );
  else
    for (const { code, message, remedy } of reading.faults) reader.refuse(code, path, node, message, remedy);
  return undefined;
}

/** The values of its parameters, with those of a preset. */
export function readPartParameters(
  reader: JobReader,
  item: YamlNode,
  path: Path,
  definition: PartDefinition,
  context: JobContext,
): JobPart['parameters'] | undefined {
  const hasPreset = child(item, 'preset') !== undefined;
  const preset = hasPreset ? reader.text(item, [...path, 'preset'], longestName) : undefined;
  const given = child(item, 'parameters') !== undefined;
  const group = given ? reader.group(item, [...path, 'parameters']) : emptyGroup;
  if (group === undefined || (hasPreset && preset === undefined)) return undefined;
  const reading = readParameters(definition, toPlain(group), { lengthUnit: reader.lengthUnit, preset });
  if (reading.ok) {
    checkMeshFiles(reader, group, path, definition, context);
    return present(reading.parameters) as JobPart['parameters'];
  }
  for (const problem of reading.problems) {
    reader.reportAll([problem], problem.code === 'unknown-preset' ? path : [...path, 'parameters']);
  }
  return undefined;
}

/** Refuses files that were looked for and cannot be read, where the job names them. */
function checkMeshFiles(
  reader: JobReader,
  group: YamlNode,
  path: Path,
  definition: PartDefinition,
  { meshFaults }: JobContext,
): void {
  if (meshFaults === undefined) return;
  for (const { name, option, info } of listSchemaFields(definition.parameters)) {
    const node = info.kind === 'file' ? (child(group, name) ?? child(group, option)) : undefined;
    const fault = node?.kind === 'scalar' ? meshFaults.get(String(node.value)) : undefined;
    if (fault)
      reader.refuse('unreadable-file', [...path, 'parameters', name], node, fault.message, fault.remedy);
  }
}
