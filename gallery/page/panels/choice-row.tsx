import { useId } from 'preact/hooks';

export interface ChoiceRowProps {
  readonly label: string;
  /** Undefined: none is given. */
  readonly value: string | undefined;
  readonly options: readonly { readonly value: string; readonly text: string }[];
  /** What holds where none is given. */
  readonly empty: string;
  readonly onChange: (value: string | undefined) => void;
}

/** One of a list of names, or none. */
export function ChoiceRow({ label, value, options, empty, onChange }: ChoiceRowProps) {
  const id = useId();
  const isKnown = value === undefined || options.some((o) => o.value === value);
  return (
    <p class="choice-row">
      <label for={id}>{label}</label>
      <select
        id={id}
        value={value ?? ''}
        aria-invalid={!isKnown}
        onChange={(event) =>
          onChange(event.currentTarget.value === '' ? undefined : event.currentTarget.value)
        }
      >
        <option value="">{empty}</option>
        {!isKnown && <option value={value}>{value} (unknown)</option>}
        {options.map((o) => (
          <option key={o.value} value={o.value}>
            {o.text}
          </option>
        ))}
      </select>
    </p>
  );
}
