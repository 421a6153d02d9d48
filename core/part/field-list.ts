/** The fields of a parameter schema with their facts, whatever wrappers stand round them. */
import type { z } from 'zod';
import type { ParameterSchema } from './contract.js';
import { type FieldInfo, type FieldKind, fieldRegistry } from './fields.js';

export interface Field {
  /** The code name, camelCase. */
  readonly name: string;
  /** The option's name, kebab-case. */
  readonly option: string;
  readonly info: FieldInfo;
  /** Absent where the default is worked out, or where there is none. */
  readonly defaultValue?: number | string | boolean;
  /** Must be given. */
  readonly required: boolean;
}

/** `helixAngle` → `helix-angle`, `m8Holes` → `m8-holes`. */
export const optionName = (name: string): string => name.replace(/([a-z0-9])([A-Z])/g, '$1-$2').toLowerCase();

/** What the reader looks at in any zod schema. */
interface AnySchema {
  readonly def: { readonly type: string; readonly innerType?: AnySchema; readonly defaultValue?: unknown };
  readonly options?: readonly unknown[];
  readonly minValue?: number | null;
  readonly maxValue?: number | null;
}

const kindsByType: Readonly<Record<string, FieldKind>> = {
  number: 'number',
  boolean: 'flag',
  enum: 'choice',
};

/** For a field made with zod alone: its facts as far as the schema itself tells them. */
function plainInfo(inner: AnySchema): FieldInfo {
  const finite = (value: number | null | undefined): value is number => Number.isFinite(value);
  return {
    kind: kindsByType[inner.def.type] ?? 'choice',
    help: '',
    group: 'Other',
    ...(finite(inner.minValue) ? { min: inner.minValue } : {}),
    ...(finite(inner.maxValue) ? { max: inner.maxValue } : {}),
    ...(inner.def.type === 'enum' ? { choices: (inner.options ?? []).map(String) } : {}),
  };
}

const isFieldValue = (value: unknown): value is number | string | boolean =>
  typeof value === 'number' || typeof value === 'string' || typeof value === 'boolean';

function readField(name: string, schema: AnySchema): Field {
  let info: FieldInfo | undefined;
  let defaultValue: unknown;
  let optional = false;
  let inner = schema;
  for (;;) {
    info ??= fieldRegistry.get(inner as unknown as z.ZodType);
    if (inner.def.type === 'default' || inner.def.type === 'prefault')
      defaultValue ??= inner.def.defaultValue;
    if (inner.def.type === 'optional') optional = true;
    if (inner.def.innerType === undefined) break;
    inner = inner.def.innerType;
  }
  return {
    name,
    option: optionName(name),
    info: info ?? plainInfo(inner),
    ...(isFieldValue(defaultValue) ? { defaultValue } : {}),
    required: !optional && defaultValue === undefined,
  };
}

/** Schemas do not change, and a job of many parts reads each many times. */
const listed = new WeakMap<ParameterSchema, readonly Field[]>();

/** The fields in the order of the schema. */
export function listSchemaFields(schema: ParameterSchema): readonly Field[] {
  const known = listed.get(schema);
  if (known) return known;
  const fields = Object.entries(schema.shape).map(([name, field]) =>
    readField(name, field as unknown as AnySchema),
  );
  listed.set(schema, fields);
  return fields;
}
