import type { PartEntry } from '../../../core/pair/mate/mate-entry.js';
import { listSchemaFields } from '../../../core/part/field-list.js';
import { rawOfValue } from '../../../core/part/raw-value.js';
import { findPart } from '../../../generators/index.js';
import type { ChosenPart } from './chosen-part.js';

/** A part that has been read, as an entry that any job reads alike: lengths with their unit. */
export function readEntry({ name, part, parameters, alloy }: ChosenPart): PartEntry {
  const schema = findPart(part)?.parameters;
  const fields = schema === undefined ? [] : listSchemaFields(schema);
  const written = fields.flatMap(({ name: key, info }) => {
    const value = parameters[key];
    const plain = typeof value === 'number' || typeof value === 'string' || typeof value === 'boolean';
    // Lengths are written with their unit where bare ones would be inches.
    return plain ? [[key, rawOfValue(info, value, 'in')]] : [];
  });
  return {
    name,
    part,
    ...(alloy === undefined ? {} : { alloy }),
    parameters: Object.fromEntries(written),
  };
}
