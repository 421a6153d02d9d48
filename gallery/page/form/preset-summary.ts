/** What a preset sets, in a line. */
import type { Field } from '../../../core/part/field-list.js';
import { formatFieldValue } from '../../../core/part/field-text.js';
import { fieldWords } from '../../../core/part/field-words.js';
import type { LengthUnit } from '../../../core/units/index.js';

const mostTold = 4;

/** `Size 22 mm, fingers 2, tab round and 3 more` */
export function presetSummary(
  preset: Readonly<Record<string, unknown>>,
  fields: readonly Field[],
  unit: LengthUnit,
): string {
  const told = fields.flatMap(({ name, info }) => {
    const value = preset[name];
    return typeof value === 'number' || typeof value === 'string' || typeof value === 'boolean'
      ? [`${fieldWords(name).toLowerCase()} ${formatFieldValue(info, value, unit)}`]
      : [];
  });
  const more = told.length > mostTold + 1 ? ` and ${told.length - mostTold} more` : '';
  const text = (more === '' ? told : told.slice(0, mostTold)).join(', ');
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}${more}`;
}
