import type { ParameterSchema } from '../../../core/part/contract.js';
import { listSchemaFields } from '../../../core/part/field-list.js';
import type { Finding } from '../../../core/part/finding.js';
import type { View } from '../../../core/report/format.js';
import type { Bench } from '../bench/bench.js';
import { FieldGroups } from '../form/field-groups.js';
import type { MechanicalRemedy } from '../form/mechanical-remedy.js';
import type { Plain } from '../job/document.js';
import type { Path } from '../job/path.js';
import type { Problem } from '../job/problem.js';

export interface SchemaFormProps {
  readonly bench: Bench;
  readonly schema: ParameterSchema;
  /** The group of keys in the job's text, and what stands there. */
  readonly path: Path;
  readonly raw: unknown;
  readonly preset?: Readonly<Record<string, unknown>> | undefined;
  readonly view: View;
  readonly problems?: readonly Problem[];
  readonly findings?: readonly Finding[];
  readonly without?: readonly string[];
}

/** The form of one group of the job's keys; what is entered goes into its text. */
export function SchemaForm({ bench, schema, path, raw, problems = [], ...props }: SchemaFormProps) {
  const group = typeof raw === 'object' && raw !== null ? (raw as Readonly<Record<string, unknown>>) : {};
  const fields = listSchemaFields(schema);
  /** As it is spelt in the text, where it is there: `helixAngle` or `helix-angle`. */
  const keyOf = (name: string): string => {
    const option = fields.find((f) => f.name === name)?.option ?? name;
    return !Object.hasOwn(group, name) && Object.hasOwn(group, option) ? option : name;
  };
  const values = Object.fromEntries(fields.map(({ name }) => [name, group[keyOf(name)]]));
  const changeOf = (name: string, value: Plain | undefined) => ({ path: [...path, keyOf(name)], value });
  const its = problems.filter((p) => p.path.length > path.length && path.every((k, i) => p.path[i] === k));
  return (
    <FieldGroups
      schema={schema}
      values={values}
      unit={props.view.lengthUnit}
      {...props}
      problems={its}
      onDrag={(name, value) => bench.drag([changeOf(name, value)])}
      onChange={(name, value) => bench.edit([changeOf(name, value)])}
      onRemedy={({ changes }: MechanicalRemedy) =>
        bench.edit(changes.map(({ parameter, value }) => changeOf(parameter, value)))
      }
    />
  );
}
