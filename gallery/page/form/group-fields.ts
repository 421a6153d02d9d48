/** A part's fields under their headings, and those that answer to a search. */
import type { Field } from '../../../core/part/field-list.js';
import { fieldWords, plainWords, readSymbol } from '../../../core/part/field-words.js';
import type { Finding } from '../../../core/part/finding.js';

export interface FieldGroup {
  readonly name: string;
  readonly fields: readonly Field[];
}

/** In the schema's order of first appearance. */
export function groupFieldsByHeading(fields: readonly Field[]): readonly FieldGroup[] {
  const groups = new Map<string, Field[]>();
  for (const field of fields) groups.set(field.info.group, [...(groups.get(field.info.group) ?? []), field]);
  return [...groups].map(([name, rows]) => ({ name, fields: rows }));
}

/** Whether every word of the search stands in the field's name, symbol, help or heading. */
export function answersTo(field: Field, search: string): boolean {
  const { help, symbol = '', group, choices = [] } = field.info;
  const { letter, subscript } = readSymbol(symbol);
  const text = [fieldWords(field.name), field.name, field.option, plainWords(help), group, ...choices]
    .join(' ')
    .toLowerCase();
  const symbols = [symbol, `${letter}_${subscript}`, `${letter}${subscript}`, letter];
  return search
    .trim()
    .split(/\s+/)
    .every((word) => text.includes(word.toLowerCase()) || (word !== '' && symbols.includes(word)));
}

export interface GroupCounts {
  readonly given: number;
  readonly problems: number;
  readonly stops: number;
  readonly warnings: number;
  readonly notes: number;
}

export function countGroup(
  fields: readonly Field[],
  values: Readonly<Record<string, unknown>>,
  hasProblem: (name: string) => boolean,
  findingsOf: (name: string) => readonly Finding[],
): GroupCounts {
  const findings = fields.flatMap(({ name }) => findingsOf(name));
  const of = (severity: Finding['severity']): number =>
    findings.filter((f) => f.severity === severity).length;
  return {
    given: fields.filter(({ name }) => values[name] !== undefined).length,
    problems: fields.filter(({ name }) => hasProblem(name)).length,
    stops: of('stop'),
    warnings: of('warn'),
    notes: of('note'),
  };
}

const counted = (count: number, one: string, many = `${one}s`): string =>
  `${count} ${count === 1 ? one : many}`;

/** `3 set, 1 warning`; empty where there is nothing to say. */
export const countsText = ({ given, problems, stops, warnings, notes }: GroupCounts): string =>
  [
    ...(given > 0 ? [`${given} set`] : []),
    ...(problems > 0 ? [counted(problems, 'problem')] : []),
    ...(stops > 0 ? [counted(stops, 'stop')] : []),
    ...(warnings > 0 ? [counted(warnings, 'warning')] : []),
    ...(notes > 0 ? [counted(notes, 'note')] : []),
  ].join(', ');
