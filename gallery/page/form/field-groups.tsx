import { useEffect, useId, useRef, useState } from 'preact/hooks';
import type { ParameterSchema } from '../../../core/part/contract.js';
import { type Field, listSchemaFields } from '../../../core/part/field-list.js';
import type { Finding, Severity } from '../../../core/part/finding.js';
import type { FieldValue } from '../../../core/part/read-field.js';
import { readFieldValue } from '../../../core/part/read-field.js';
import type { View } from '../../../core/report/format.js';
import type { LengthUnit } from '../../../core/units/index.js';
import type { Problem } from '../job/problem.js';
import { fieldIds } from './field-ids.js';
import { FieldRow } from './field-row.js';
import { FindingPointer } from './finding-list.js';
import {
  answersTo,
  countGroup,
  countsText,
  type FieldGroup,
  type GroupCounts,
  groupFieldsByHeading,
} from './group-fields.js';
import type { MechanicalRemedy } from './mechanical-remedy.js';
import { placeFindings, toldUnder } from './place-findings.js';
import { SeverityMark } from './severity-mark.js';
import type { RawValue } from './written-value.js';

/** A form of more fields than this opens its first groups alone. */
const mostOpen = 24;
const firstOpen = 2;
/** Below this many nobody searches. */
const worthSearching = 8;

export interface FieldGroupsProps {
  readonly schema: ParameterSchema;
  /** By code name, as the job's text has them. */
  readonly values: Readonly<Record<string, unknown>>;
  /** What a preset sets, mm, radians …; the schema's defaults stand behind it. */
  readonly preset?: Readonly<Record<string, unknown>> | undefined;
  readonly unit: LengthUnit;
  readonly view?: View | undefined;
  /** Those of the job's reader whose path ends in a field's name are shown beside it. */
  readonly problems?: readonly Problem[] | undefined;
  /** Those that name a field are shown beside it; others are the caller's to show (`placeFindings`). */
  readonly findings?: readonly Finding[] | undefined;
  /** Code names of fields that are left out. */
  readonly without?: readonly string[] | undefined;
  readonly onDrag: (name: string, raw: RawValue) => void;
  readonly onChange: (name: string, raw: RawValue | undefined) => void;
  readonly onRemedy?: ((remedy: MechanicalRemedy, finding: Finding) => void) | undefined;
}

const isFieldValue = (value: unknown): value is FieldValue =>
  typeof value === 'number' || typeof value === 'string' || typeof value === 'boolean';

/** The form of a schema of fields: groups in its order, a search over them, and all that is known of each field. */
export function FieldGroups(props: FieldGroupsProps) {
  const { schema, values, unit, problems = [], findings = [], without = [] } = props;
  const prefix = useId();
  const [search, setSearch] = useState('');
  const [opened, setOpened] = useState<Readonly<Record<string, boolean>>>({});
  const shown = useRef(new Set<string>());
  const toFocus = useRef<string>(undefined);
  const fields = listSchemaFields(schema).filter(({ name }) => !without.includes(name));
  const placed = placeFindings(findings, fields);
  const problemOf = (name: string): Problem | undefined => problems.find(({ path }) => path.at(-1) === name);
  const isWrong = (field: Field): boolean => {
    const raw = values[field.name];
    return problemOf(field.name) !== undefined || (raw !== undefined && !readFieldValue(field, raw, unit).ok);
  };
  const wrong = new Set(fields.filter(isWrong).map(({ name }) => name));

  useEffect(() => {
    if (toFocus.current === undefined) return;
    document.getElementById(fieldIds(prefix, toFocus.current).entry)?.focus();
    toFocus.current = undefined;
  });
  const reveal = (name: string): void => {
    toFocus.current = name;
    setSearch('');
    const group = fields.find((field) => field.name === name)?.info.group ?? '';
    setOpened((known) => ({ ...known, [group]: true }));
  };

  const found = search.trim() === '' ? fields : fields.filter((field) => answersTo(field, search));
  const row = (field: Field) => {
    const set = props.preset?.[field.name];
    return (
      <FieldRow
        key={field.name}
        field={field}
        fields={fields}
        raw={values[field.name]}
        inherited={isFieldValue(set) ? set : field.defaultValue}
        unit={unit}
        view={props.view}
        problem={problemOf(field.name)}
        findings={placed.told.get(field.name)}
        idPrefix={prefix}
        onDrag={(raw) => props.onDrag(field.name, raw)}
        onChange={(raw) => props.onChange(field.name, raw)}
        onRemedy={
          props.onRemedy &&
          ((remedy, finding) => {
            // The button goes with the finding: on to what it set, but where that would call up a keyboard on the screen.
            if (matchMedia('(pointer: fine)').matches) toFocus.current = remedy.changes[0]?.parameter;
            props.onRemedy?.(remedy, finding);
          })
        }
      >
        {(placed.alsoConcerned.get(field.name) ?? []).map((finding) => (
          <FindingPointer
            key={`${finding.code} ${finding.message}`}
            finding={finding}
            toldUnder={toldUnder(finding, fields) ?? field.name}
            onReveal={reveal}
          />
        ))}
      </FieldRow>
    );
  };
  const headings = new Set(fields.map(({ info }) => info.group));
  const [only] = fields;
  // One field needs no heading over it.
  if (only && fields.length === 1) return <div class="field-groups">{row(only)}</div>;
  return (
    <div class="field-groups">
      {fields.length >= worthSearching && (
        <SearchBox
          id={`${prefix}-search`}
          within={headings.size === 1 ? fields[0]?.info.group : undefined}
          search={search}
          found={found.length}
          all={fields.length}
          onSearch={setSearch}
        />
      )}
      {groupFieldsByHeading(found).map((group, k) => {
        const counts = countGroup(
          group.fields,
          values,
          (name) => wrong.has(name),
          (name) => placed.told.get(name) ?? [],
        );
        const usual = fields.length <= mostOpen || k < firstOpen || counts.problems > 0 || counts.stops > 0;
        // One that was open for its troubles stays so when they are mended.
        if (usual) shown.current.add(group.name);
        const open = search.trim() !== '' || (opened[group.name] ?? shown.current.has(group.name));
        return (
          <Group
            key={group.name}
            group={group}
            counts={counts}
            open={open}
            onToggle={(now) => {
              if (now !== open) setOpened((known) => ({ ...known, [group.name]: now }));
            }}
          >
            {open && group.fields.map(row)}
          </Group>
        );
      })}
    </div>
  );
}

function SearchBox(props: {
  readonly id: string;
  /** The one heading that all are under. */
  readonly within: string | undefined;
  readonly search: string;
  readonly found: number;
  readonly all: number;
  readonly onSearch: (search: string) => void;
}) {
  const searching = props.search.trim() !== '';
  return (
    <div class="field-search">
      <label for={props.id}>
        {props.within === undefined ? 'Find a size' : `Find in ${props.within.toLowerCase()}`}
      </label>
      <input
        id={props.id}
        type="search"
        class="field-text"
        autoComplete="off"
        spellcheck={false}
        value={props.search}
        onInput={(event) => props.onSearch(event.currentTarget.value)}
        onKeyDown={(event) => {
          if (event.key === 'Escape') props.onSearch('');
        }}
      />
      <span class="field-found" role="status">
        {!searching ? '' : props.found === 0 ? 'Nothing found' : `${props.found} of ${props.all}`}
      </span>
    </div>
  );
}

function Group(props: {
  readonly group: FieldGroup;
  readonly counts: GroupCounts;
  readonly open: boolean;
  readonly onToggle: (open: boolean) => void;
  readonly children: preact.ComponentChildren;
}) {
  const { counts } = props;
  const gravest: Severity | undefined =
    counts.problems + counts.stops > 0
      ? 'stop'
      : counts.warnings > 0
        ? 'warn'
        : counts.notes > 0
          ? 'note'
          : undefined;
  return (
    <details
      class="field-group"
      open={props.open}
      onToggle={(event) => props.onToggle(event.currentTarget.open)}
    >
      <summary>
        <h3>{props.group.name}</h3>
        <span class="field-counts">
          {gravest && <SeverityMark severity={gravest} />}
          {countsText(counts)}
        </span>
      </summary>
      {props.children}
    </details>
  );
}
