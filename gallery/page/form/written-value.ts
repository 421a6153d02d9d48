/** A field's value between the job's text, the box it is typed in and the slider under it. */
import type { Field } from '../../../core/part/field-list.js';
import { fieldUnit, formatFieldValue, toShown } from '../../../core/part/field-text.js';
import { rawOfShown } from '../../../core/part/raw-value.js';
import { type FieldReading, type FieldValue, readFieldValue } from '../../../core/part/read-field.js';
import type { LengthUnit } from '../../../core/units/index.js';

/** What a job's text may hold for a field. */
export type RawValue = number | string | boolean;

/** The raw value as it stands in a box: as it was written, nothing where nothing is. */
export const boxText = (raw: unknown): string =>
  raw === undefined || raw === null ? '' : typeof raw === 'object' ? '…' : String(raw);

/** What a box's text is to the job: nothing, a number, or the text itself. */
export function rawOfText(text: string): RawValue | undefined {
  const trimmed = text.trim();
  if (trimmed === '') return undefined;
  return /^-?\d{1,15}(\.\d{1,12})?$/.test(trimmed) ? Number(trimmed) : trimmed;
}

/** A reading of what is given; `undefined` where nothing is. */
export const readGiven = (field: Field, raw: unknown, unit: LengthUnit): FieldReading | undefined =>
  raw === undefined ? undefined : readFieldValue(field, raw, unit);

/** The unit a length is moved in: the one it is written in, else the job's. */
export function writtenUnit(field: Field, raw: unknown, unit: LengthUnit): LengthUnit {
  if (field.info.kind !== 'length' || typeof raw !== 'string') return unit;
  if (/in(ch(es)?)?\s*$|["\u201d\u2033]\s*$/i.test(raw)) return 'in';
  return /[mc]m\s*$/.test(raw) ? 'mm' : unit;
}

/** A number in the unit it is moved in, as the job has it: with its unit where bare ones mean another. */
export function rawOfMoved(field: Field, shown: number, moved: LengthUnit, unit: LengthUnit): RawValue {
  const raw = rawOfShown(field.info, shown, moved);
  return typeof raw === 'number' && field.info.kind === 'length' && moved !== unit ? `${raw}${moved}` : raw;
}

/** What stands behind a box: the unit of a bare number, or what a text with its own unit comes to. */
export function besideBox(
  field: Field,
  text: string,
  reading: FieldReading | undefined,
  unit: LengthUnit,
): string {
  const own = fieldUnit(field.info, unit);
  if (/^\s*-?[\d./ -]*\s*$/.test(text) || !reading?.ok || typeof reading.value !== 'number') return own;
  const told = formatFieldValue(field.info, reading.value, unit);
  return told.replace(/[ °]/g, '') === text.replace(/deg|[ °]/g, '') ? '' : `= ${told}`;
}

/** The number a value is, in the unit that is shown. */
export const shownNumber = (
  field: Field,
  value: FieldValue | undefined,
  unit: LengthUnit,
): number | undefined => (typeof value === 'number' ? toShown(field.info, value, unit) : undefined);
