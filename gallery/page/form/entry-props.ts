import type { Field } from '../../../core/part/field-list.js';
import type { FieldValue } from '../../../core/part/read-field.js';
import type { LengthUnit } from '../../../core/units/index.js';
import type { FieldIds } from './field-ids.js';
import type { RawValue } from './written-value.js';

/** What every control of a value is given. */
export interface EntryProps {
  readonly field: Field;
  /** As the job's text has it; `undefined` where it is not given. */
  readonly raw: unknown;
  /** What holds where it is not given (mm, radians …), where that is a value. */
  readonly inherited: FieldValue | undefined;
  /** What bare lengths are in. */
  readonly unit: LengthUnit;
  readonly ids: FieldIds;
  readonly describedBy: string;
  readonly invalid: boolean;
  /** While it is being moved. */
  readonly onDrag: (raw: RawValue) => void;
  /** When it is settled; `undefined` takes it out of the job. */
  readonly onChange: (raw: RawValue | undefined) => void;
}
