import type { PartDefinition } from '../part/contract.js';
import { listSchemaFields } from '../part/field-list.js';
import type { Job, JobPart, TreeMember } from './job.js';
import { serialOf } from './remember.js';

/** The mesh files that a job's parts name, each once, in order. */
export function meshFilesOf(
  { parts }: Pick<Job, 'parts'>,
  findPart: (name: string) => PartDefinition | undefined,
): readonly string[] {
  const named = parts.flatMap((p): readonly (JobPart | TreeMember)[] => p.tree ?? [p]);
  const names = named.flatMap(({ part, parameters }) => {
    const schema = findPart(part)?.parameters;
    const fields = schema === undefined ? [] : listSchemaFields(schema).filter((f) => f.info.kind === 'file');
    return fields.flatMap(({ name }) => (name in parameters ? [String(parameters[name])] : []));
  });
  return [...new Set(names)];
}

/** What stands for the mesh files of a job where results are remembered: the same names alone may hold other meshes. */
export const meshKeyOf = ({ meshFiles }: Pick<Job, 'meshFiles'>): readonly (readonly [string, number])[] =>
  [...(meshFiles ?? [])].map(([name, file]) => [name, serialOf(file)]);
