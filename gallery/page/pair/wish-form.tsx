import { mateFields } from '../../../core/pair/mate/mate-fields.js';
import type { Field } from '../../../core/part/field-list.js';
import { listSchemaFields } from '../../../core/part/field-list.js';
import type { InputProblem } from '../../../core/part/input-problem.js';
import type { LengthUnit } from '../../../core/units/index.js';
import { FieldRow } from '../form/field-row.js';
import type { RawWish } from './mate-choice.js';

/** What may be asked of a mate. */
export const wishFields: readonly Field[] = listSchemaFields(mateFields);

interface WishFormProps {
  /** Names of the fields to be shown. */
  readonly shown: readonly string[];
  readonly raw: RawWish;
  readonly unit: LengthUnit;
  readonly problems: readonly InputProblem[];
  readonly onChange: (name: string, value: unknown) => void;
}

export function WishForm({ shown, raw, unit, problems, onChange }: WishFormProps) {
  return (
    <div class="pair-wish">
      {wishFields
        .filter((field) => shown.includes(field.name))
        .map((field) => (
          <FieldRow
            key={field.name}
            field={field}
            raw={raw[field.name]}
            unit={unit}
            problem={problems.find((p) => p.path[0] === field.name)}
            idPrefix="mate"
            onDrag={(value) => onChange(field.name, value)}
            onChange={(value) => onChange(field.name, value)}
          />
        ))}
    </div>
  );
}
