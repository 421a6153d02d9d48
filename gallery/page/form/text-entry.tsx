import type { EntryProps } from './entry-props.js';
import { boxText } from './written-value.js';

/** Beyond this a text gets room for several lines. */
const oneLine = 200;

/** Words, settled when the box is left or by Enter in a single line. */
export function TextEntry({ field, raw, inherited, ids, describedBy, invalid, onChange }: EntryProps) {
  const given = boxText(raw);
  const settle = (text: string): void => {
    if (text !== given) onChange(text === '' ? undefined : text);
  };
  const shared = {
    id: ids.entry,
    class: 'field-text is-words',
    autoComplete: 'off' as const,
    autoCapitalize: 'off' as const,
    spellcheck: false,
    value: given,
    placeholder: inherited === undefined ? '' : String(inherited),
    'aria-describedby': describedBy,
    'aria-invalid': invalid ? ('true' as const) : undefined,
  };
  if ((field.info.longest ?? 0) > oneLine && field.info.kind === 'text')
    return <textarea {...shared} rows={3} onChange={(event) => settle(event.currentTarget.value)} />;
  return <input {...shared} type="text" onChange={(event) => settle(event.currentTarget.value)} />;
}
