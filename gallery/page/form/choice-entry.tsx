import { findAlloy } from '../../../core/foundry/alloys/index.js';
import type { EntryProps } from './entry-props.js';
import { boxText } from './written-value.js';

const mostButtons = 4;
const mostLetters = 30;

/** Few short words stand side by side; more are a list. */
export const sideBySide = (choices: readonly string[]): boolean =>
  choices.length <= mostButtons && choices.join('').length <= mostLetters;

/** Metals by their titles, as they are called elsewhere. */
const told = (word: string): string => findAlloy(word)?.title ?? word;

/** One of a few words. */
export function ChoiceEntry({ field, raw, inherited, ids, describedBy, invalid, onChange }: EntryProps) {
  const choices = field.info.choices ?? [];
  const given = raw === undefined ? undefined : boxText(raw);
  const chosen = given ?? (inherited === undefined ? undefined : String(inherited));
  if (sideBySide(choices)) {
    return (
      <span class="field-choices">
        {choices.map((word, k) => (
          <label key={word} class="field-choice">
            <input
              type="radio"
              id={k === 0 ? ids.entry : undefined}
              name={ids.entry}
              value={word}
              checked={chosen === word}
              onChange={() => onChange(word)}
            />
            <span>{word}</span>
          </label>
        ))}
      </span>
    );
  }
  const unknown = given !== undefined && !choices.includes(given);
  return (
    <select
      id={ids.entry}
      class="field-select"
      value={chosen}
      aria-describedby={describedBy}
      aria-invalid={invalid ? 'true' : undefined}
      onChange={(event) => onChange(event.currentTarget.value)}
    >
      {unknown && <option value={given}>{given}</option>}
      {choices.map((word) => (
        <option key={word} value={word}>
          {told(word)}
        </option>
      ))}
    </select>
  );
}
