import { useEffect, useRef, useState } from 'preact/hooks';
import { fieldWords } from '../../../core/part/field-words.js';
import { formatInput } from '../../../core/part/input-problem.js';
import type { EntryProps } from './entry-props.js';
import { boxText, readGiven } from './written-value.js';

/** Beyond this a text gets room for several lines. */
const oneLine = 200;
const [fewestLines, mostLines] = [2, 10];

/**
 * Words. What is typed is the user's until they leave the box, or press Enter, in several lines with Ctrl; Escape takes
 * it back.
 */
export function TextEntry(props: EntryProps) {
  const { field, raw, inherited, unit, ids, describedBy, invalid, onChange } = props;
  const given = boxText(raw);
  const [draft, setDraft] = useState<string | null>(null);
  const known = useRef(given);
  useEffect(() => {
    // Changed from elsewhere: what was being typed is about another text.
    if (known.current !== given) setDraft(null);
    known.current = given;
  }, [given]);
  const text = draft ?? given;
  const settle = (): void => {
    if (draft !== null && draft !== given) {
      known.current = draft;
      onChange(draft === '' ? undefined : draft);
    }
    setDraft(null);
  };
  const reading =
    draft === null || draft === '' || draft === given ? undefined : readGiven(field, draft, unit);
  const remark = reading?.ok === false ? formatInput(reading.problem, fieldWords(field.name)) : '';
  const isLong = (field.info.longest ?? 0) > oneLine;
  const shared = {
    id: ids.entry,
    class: 'field-text is-words',
    autoComplete: 'off' as const,
    autoCapitalize: 'off' as const,
    spellcheck: false,
    value: text,
    placeholder: inherited === undefined ? '' : String(inherited),
    'aria-describedby': `${describedBy}${remark === '' ? '' : ` ${ids.problem}-typed`}`,
    'aria-invalid': invalid || remark !== '' ? ('true' as const) : undefined,
    onInput: (event: { readonly currentTarget: { readonly value: string } }) =>
      setDraft(event.currentTarget.value),
    onKeyDown: (event: KeyboardEvent) => {
      if (event.key === 'Enter' && (!isLong || event.ctrlKey || event.metaKey)) settle();
      else if (event.key === 'Escape') setDraft(null);
    },
    onBlur: settle,
  };
  const lines = Math.min(mostLines, Math.max(fewestLines, text.split('\n').length));
  return (
    <>
      {isLong ? <textarea {...shared} rows={lines} /> : <input {...shared} type="text" />}
      {remark !== '' && (
        <p class="field-problem" id={`${ids.problem}-typed`}>
          {remark}
        </p>
      )}
    </>
  );
}
