import type { EntryProps } from './entry-props.js';
import { readGiven } from './written-value.js';

/** Yes or no, beside its label. */
export function FlagEntry({ field, raw, inherited, unit, ids, describedBy, invalid, onChange }: EntryProps) {
  const reading = readGiven(field, raw, unit);
  return (
    <input
      type="checkbox"
      id={ids.entry}
      class="field-flag"
      checked={(reading?.ok ? reading.value : inherited) === true}
      aria-describedby={describedBy}
      aria-invalid={invalid ? 'true' : undefined}
      onChange={(event) => onChange(event.currentTarget.checked)}
    />
  );
}
