/** A finding's remedy as something the page can do: values to set, and what to call it. */
import type { Field } from '../../../core/part/field-list.js';
import { formatFieldValue } from '../../../core/part/field-text.js';
import { fieldWords } from '../../../core/part/field-words.js';
import type { Finding } from '../../../core/part/finding.js';
import { rawOfValue } from '../../../core/part/raw-value.js';
import { readFieldValue } from '../../../core/part/read-field.js';
import type { LengthUnit } from '../../../core/units/index.js';
import type { RawValue } from './written-value.js';

export interface ParameterChange {
  /** Code name. */
  readonly parameter: string;
  /** As the job's text would have it. */
  readonly value: RawValue;
}

export interface MechanicalRemedy {
  /** `Set bore to 18 mm` */
  readonly label: string;
  readonly changes: readonly ParameterChange[];
}

/**
 * What a button beside the finding would set; `null` where its remedy takes thought, or where a value would not be
 * accepted. `fields` are those of the part.
 */
export function mechanicalRemedy(
  finding: Finding,
  fields: readonly Field[],
  unit: LengthUnit,
): MechanicalRemedy | null {
  const wanted = Object.entries(finding.change ?? {});
  const told: string[] = [];
  const changes: ParameterChange[] = [];
  for (const [parameter, value] of wanted) {
    const field = fields.find(({ name }) => name === parameter);
    if (field === undefined) return null;
    const raw = rawOfValue(field.info, value, unit);
    if (!readFieldValue(field, raw, unit).ok) return null;
    changes.push({ parameter, value: raw });
    told.push(`${fieldWords(parameter).toLowerCase()} to ${formatFieldValue(field.info, value, unit)}`);
  }
  return changes.length === 0 ? null : { label: `Set ${told.join(' and ')}`, changes };
}
