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

/** Fields that most mates need no word on. */
const further = ['centreDistance', 'play', 'backlash', 'toothGrade', 'centreTolerance', 'runout'];

export function WishForm(props: WishFormProps) {
  const { shown, raw } = props;
  const more = shown.filter((name) => further.includes(name));
  const first = shown.filter((name) => !further.includes(name));
  if (first.length === 0) return <Rows {...props} />;
  return (
    <div class="pair-wish">
      <Rows {...props} shown={first} />
      {more.length > 0 && (
        <details class="pair-more" open={more.some((name) => raw[name] !== undefined)}>
          <summary>Centre distance and backlash</summary>
          <Rows {...props} shown={more} />
        </details>
      )}
    </div>
  );
}

const Rows = ({ shown, raw, unit, problems, onChange }: WishFormProps) => (
  <>
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
  </>
);
