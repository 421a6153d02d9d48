import { useEffect, useState } from 'preact/hooks';
import { fieldWords } from '../../../core/part/field-words.js';
import type { EntryProps } from './entry-props.js';
import { NumberEntry } from './number-entry.js';
import { boxText } from './written-value.js';

const aNumber = '\u0000number';

/** A word that stands for a way to find the number, or the number itself. */
export function WordOrNumberEntry(props: EntryProps) {
  const { field, raw, ids, onChange } = props;
  const words = field.info.choices ?? [];
  const [numbered, setNumbered] = useState(false);
  const word = raw === undefined ? '' : words.includes(boxText(raw)) ? boxText(raw) : aNumber;
  useEffect(() => {
    if (word !== '') setNumbered(false);
  }, [word]);
  const chosen = numbered ? aNumber : word;
  return (
    <>
      <select
        id={chosen === aNumber ? undefined : ids.entry}
        class="field-select"
        aria-label={`${fieldWords(field.name)}, how it is found`}
        aria-describedby={props.describedBy}
        value={chosen}
        onChange={(event) => {
          const next = event.currentTarget.value;
          setNumbered(next === aNumber);
          if (next !== aNumber) onChange(next === '' ? undefined : next);
        }}
      >
        <option value="">left empty</option>
        {words.map((text) => (
          <option key={text} value={text}>
            {text}
          </option>
        ))}
        <option value={aNumber}>a number</option>
      </select>
      {chosen === aNumber && <NumberEntry {...props} raw={word === aNumber ? raw : undefined} />}
    </>
  );
}
