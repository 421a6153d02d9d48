import type { ComponentChildren } from 'preact';
import { useId } from 'preact/hooks';
import type { Field } from '../../../core/part/field-list.js';
import { formatFieldValue, formatRange } from '../../../core/part/field-text.js';
import { fieldWords, plainWords } from '../../../core/part/field-words.js';
import type { Finding } from '../../../core/part/finding.js';
import { formatInput } from '../../../core/part/input-problem.js';
import type { FieldValue } from '../../../core/part/read-field.js';
import type { View } from '../../../core/report/format.js';
import { readersUnits } from '../../../core/report/reader-units.js';
import type { LengthUnit } from '../../../core/units/index.js';
import type { Problem } from '../job/problem.js';
import { ChoiceEntry, sideBySide } from './choice-entry.js';
import type { EntryProps } from './entry-props.js';
import { fieldIds } from './field-ids.js';
import { FileEntry } from './file-entry.js';
import { FindingList } from './finding-list.js';
import { FlagEntry } from './flag-entry.js';
import type { MechanicalRemedy } from './mechanical-remedy.js';
import { NumberEntry } from './number-entry.js';
import { SymbolText } from './symbol.js';
import { TextEntry } from './text-entry.js';
import { WordOrNumberEntry } from './word-or-number-entry.js';
import { writtenOut } from './written-out.js';
import { type RawValue, readGiven } from './written-value.js';

export interface FieldRowProps {
  readonly field: Field;
  /** As the job's text has it; `undefined` where it is not given. */
  readonly raw: unknown;
  /** What holds where it is not given: the preset's or the schema's, mm, radians …; `undefined` where worked out. */
  readonly inherited?: FieldValue | undefined;
  /** The job's: what bare lengths are in. */
  readonly unit: LengthUnit;
  /** For findings' sentences; the unit alone where left out. */
  readonly view?: View | undefined;
  /** What the job's reader said of it. */
  readonly problem?: Problem | undefined;
  readonly findings?: readonly Finding[] | undefined;
  /** The part's, for remedies that touch others. */
  readonly fields?: readonly Field[] | undefined;
  /** Unique among the forms of a page. */
  readonly idPrefix?: string | undefined;
  readonly children?: ComponentChildren;
  readonly onDrag: (raw: RawValue) => void;
  readonly onChange: (raw: RawValue | undefined) => void;
  readonly onRemedy?: ((remedy: MechanicalRemedy, finding: Finding) => void) | undefined;
}

const entryOf = ({ info }: Field): ((props: EntryProps) => preact.JSX.Element | null) => {
  if (info.kind === 'flag') return FlagEntry;
  if (info.kind === 'choice') return ChoiceEntry;
  if (info.kind === 'file') return FileEntry;
  if (info.kind === 'text') return TextEntry;
  return info.choices === undefined ? NumberEntry : WordOrNumberEntry;
};

/** One parameter: its name, what holds, what may stand there, and what is wrong with it. */
export function FieldRow(props: FieldRowProps) {
  const { field, raw, inherited = field.defaultValue, unit, findings = [] } = props;
  const own = useId();
  const ids = fieldIds(props.idPrefix ?? own, field.name);
  const { info } = field;
  const words = fieldWords(field.name);
  const given = raw !== undefined;
  const reading = readGiven(field, raw, unit);
  const view = props.view ?? { lengthUnit: unit, degrees: 'C' };
  const told = (text: string): string => readersUnits(plainWords(text), view);
  const wrong = problemText(props, words, reading?.ok === false ? reading.problem : undefined);
  const differs = given && !(reading?.ok && reading.value === inherited);
  const grouped = info.kind === 'choice' && sideBySide(info.choices ?? []);
  const Row = grouped ? 'fieldset' : 'div';
  const Entry = entryOf(field);
  const describedBy = [info.help === '' ? '' : ids.help, ids.facts, wrong === '' ? '' : ids.problem]
    .filter((id) => id !== '')
    .join(' ');
  const label = (
    <>
      {words}
      {info.symbol !== undefined && (
        <>
          {' '}
          <SymbolText symbol={info.symbol} />
        </>
      )}
      {differs && <span class="unseen"> (set in this job)</span>}
    </>
  );
  // What is chosen where nothing is given is seen at the choice itself.
  const worded = info.kind === 'choice' || info.kind === 'flag';
  const empty = worded && !given ? '' : told(whenEmpty(field, inherited, unit));
  return (
    <Row
      class={`field is-${info.kind}${differs ? ' is-changed' : ''}${wrong === '' ? '' : ' is-wrong'}`}
      data-field={field.name}
      aria-describedby={grouped ? describedBy : undefined}
    >
      {grouped ? (
        <>
          <legend class="unseen">{label}</legend>
          <span class="field-label" aria-hidden="true">
            {label}
          </span>
        </>
      ) : (
        <label class="field-label" id={ids.label} for={ids.entry}>
          {label}
        </label>
      )}
      {info.help !== '' && (
        <p class="field-help" id={ids.help}>
          {told(info.help)}
        </p>
      )}
      <Entry
        field={field}
        raw={raw}
        inherited={inherited}
        unit={unit}
        ids={ids}
        describedBy={describedBy}
        invalid={wrong !== ''}
        onDrag={props.onDrag}
        onChange={props.onChange}
      />
      <div class="field-foot">
        <p class="field-facts" id={ids.facts}>
          {!worded && info.kind !== 'file' && <span class="field-range">{formatRange(info, unit)}</span>}
          {empty !== '' && <span class="field-empty">{empty}</span>}
        </p>
        {given && !field.required && (
          <button
            type="button"
            class="field-reset"
            aria-label={`Reset ${words.toLowerCase()}`}
            onClick={() => props.onChange(undefined)}
          >
            Reset
          </button>
        )}
      </div>
      {wrong !== '' && (
        <p class="field-problem" id={ids.problem}>
          {wrong}
        </p>
      )}
      <FindingList
        findings={findings}
        fields={props.fields ?? [field]}
        view={view}
        onRemedy={props.onRemedy}
      />
      {props.children}
    </Row>
  );
}

/** `Default 12 mm`, or what it is worked out from. */
function whenEmpty(field: Field, inherited: FieldValue | undefined, unit: LengthUnit): string {
  if (inherited === '') return '';
  if (inherited !== undefined) {
    return `${inherited === field.defaultValue ? 'Default' : 'Preset'} ${formatFieldValue(field.info, inherited, unit)}`;
  }
  const { derived } = field.info;
  return derived === undefined || derived === '' ? '' : `When empty: ${writtenOut(derived)}`;
}

function problemText(
  { problem }: FieldRowProps,
  words: string,
  read: { readonly message: string; readonly remedy: string; readonly code: string } | undefined,
): string {
  const wrong = read ?? problem;
  return wrong === undefined ? '' : formatInput({ ...wrong, path: [], got: '' }, words);
}
