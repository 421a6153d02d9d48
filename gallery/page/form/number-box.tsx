import { useEffect, useRef, useState } from 'preact/hooks';
import { fieldUnit, formatFieldValue } from '../../../core/part/field-text.js';
import { fieldWords } from '../../../core/part/field-words.js';
import { formatInput } from '../../../core/part/input-problem.js';
import { stepValue } from '../../../core/part/slider-scale.js';
import type { EntryProps } from './entry-props.js';
import {
  besideBox,
  boxText,
  type RawValue,
  rawOfMoved,
  rawOfText,
  readGiven,
  shownNumber,
  writtenUnit,
} from './written-value.js';

/** Milliseconds without a key after which a readable text is passed on, and one that is not is remarked on. */
const pause = 600;

interface NumberBoxProps extends EntryProps {
  /** What a slider is being moved to, shown in place of what is given. */
  readonly moving: string | undefined;
  /** What can be read here now, mm, radians …; where steps start from when nothing is known. */
  readonly startFrom: number;
}

/**
 * A number as text, in whatever form the job may have it. The text in the box is the user's until they leave it: it
 * is passed on when it can be read, or when they settle it by Enter or by leaving.
 */
export function NumberBox(props: NumberBoxProps) {
  const { field, raw, inherited, unit, ids, moving, onChange, onDrag } = props;
  const [draft, setDraft] = useState<string | null>(null);
  const [rested, setRested] = useState(false);
  const reported = useRef<unknown>(raw);
  /** What was given before steps that have been shown and not yet settled. */
  const stepped = useRef<{ readonly from: unknown } | null>(null);
  const timer = useRef<ReturnType<typeof setTimeout>>(undefined);

  useEffect(() => () => clearTimeout(timer.current), []);
  useEffect(() => {
    // Changed from elsewhere: what was being typed is about another value.
    if (raw !== reported.current) {
      clearTimeout(timer.current);
      setDraft(null);
    }
    reported.current = raw;
  }, [raw]);

  const text = moving ?? draft ?? boxText(raw);
  const typed = rawOfText(text);
  const reading = readGiven(field, typed, unit);
  const unread = draft !== null && reading?.ok === false && rawOfText(draft) !== raw;
  const report = (value: string): void => {
    clearTimeout(timer.current);
    const next = rawOfText(value);
    if (next === raw && stepped.current === null) return;
    stepped.current = null;
    reported.current = next;
    onChange(next);
  };
  const rest = (value: string): void => {
    clearTimeout(timer.current);
    setRested(false);
    timer.current = setTimeout(() => {
      setRested(true);
      if (readGiven(field, rawOfText(value), unit)?.ok) report(value);
    }, pause);
  };
  const step = (direction: 1 | -1, by: number): void => {
    const moved = writtenUnit(field, typed, unit);
    const value = reading?.ok ? reading.value : inherited;
    const from = shownNumber(field, value, moved) ?? shownNumber(field, props.startFrom, moved)!;
    const next = rawOfMoved(field, stepValue(field.info, from, direction, by, moved), moved, unit);
    setDraft(String(next));
    stepped.current ??= { from: raw };
    reported.current = next;
    onDrag(next);
    rest(String(next));
  };
  const remark = unread && rested && !reading.ok ? formatInput(reading.problem, fieldWords(field.name)) : '';
  const bare = field.info.kind === 'count' || (field.info.kind === 'number' && !field.info.choices);
  return (
    <>
      <span class="field-box">
        <input
          id={ids.entry}
          type="text"
          class="field-text"
          inputMode={bare ? 'decimal' : 'text'}
          autoComplete="off"
          autoCapitalize="off"
          spellcheck={false}
          value={text}
          placeholder={placeholderOf(props)}
          aria-describedby={`${props.describedBy}${remark === '' ? '' : ` ${ids.problem}-typed`}`}
          aria-invalid={props.invalid || remark !== '' ? 'true' : undefined}
          onInput={(event) => {
            setDraft(event.currentTarget.value);
            rest(event.currentTarget.value);
          }}
          onKeyDown={(event) => {
            if (event.key === 'Enter') report(text);
            else if (event.key === 'Escape' && draft !== null) {
              clearTimeout(timer.current);
              setDraft(null);
              if (stepped.current !== null) onChange(stepped.current.from as RawValue | undefined);
              stepped.current = null;
            } else if (event.key === 'ArrowUp' || event.key === 'ArrowDown') {
              event.preventDefault();
              step(event.key === 'ArrowUp' ? 1 : -1, event.shiftKey ? 10 : 1);
            }
          }}
          onBlur={() => {
            if (draft !== null) report(draft);
            setDraft(null);
          }}
        />
        <span class="field-unit">{besideBox(field, text, reading, unit)}</span>
      </span>
      {remark !== '' && (
        <p class="field-problem" id={`${ids.problem}-typed`}>
          {remark}
        </p>
      )}
    </>
  );
}

/** The value that holds, without the unit that stands beside the box. */
function placeholderOf({ field, inherited, unit }: EntryProps): string {
  if (inherited === undefined) return field.required ? '' : emptyWords(field.info.derived);
  const own = fieldUnit(field.info, unit);
  const told = formatFieldValue(field.info, inherited, unit);
  return own === '' ? told : told.slice(0, told.length - own.length).trim();
}

/** Whether something is worked out in its stead, by what is said of it: `not checked`, `left out of the cost`. */
const emptyWords = (derived = ''): string => (/\bnot\b|left out/.test(derived) ? 'not given' : 'worked out');
