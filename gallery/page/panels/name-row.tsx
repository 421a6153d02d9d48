import { useId, useState } from 'preact/hooks';
import { parseSafeName } from '../../../core/job/safe-name.js';

/** The name of a piece, kept only where it will do as a folder's. */
export function NameRow({
  label,
  name,
  onChange,
}: {
  readonly label: string;
  readonly name: string;
  readonly onChange: (name: string) => void;
}) {
  const id = useId();
  const [typed, setTyped] = useState<string | null>(null);
  const reading = parseSafeName(typed ?? name);
  const commit = (): void => {
    if (typed !== null && reading.ok && typed !== name) onChange(typed);
    if (reading.ok) setTyped(null);
  };
  return (
    <p class="name-row">
      <label for={id}>{label}</label>
      <input
        id={id}
        type="text"
        value={typed ?? name}
        spellcheck={false}
        autoComplete="off"
        aria-invalid={!reading.ok}
        aria-describedby={reading.ok ? undefined : `${id}-problem`}
        onInput={(event) => setTyped(event.currentTarget.value)}
        onBlur={commit}
        onKeyDown={(event) => {
          if (event.key === 'Enter') commit();
          if (event.key === 'Escape') setTyped(null);
        }}
      />
      {!reading.ok && (
        <span class="field-problem" id={`${id}-problem`}>
          The name {reading.problem}: {reading.remedy}
        </span>
      )}
    </p>
  );
}
