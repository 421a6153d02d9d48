/** Field help from a part's schema: for `--help`, the reference documentation and the page's form. */
import type { LengthUnit } from '../units/index.js';
import type { ParameterSchema } from './contract.js';
import { type Field, listSchemaFields } from './field-list.js';
import { fieldUnit, formatFieldValue, formatRange } from './field-text.js';
import type { FieldKind } from './fields.js';

export interface FieldHelp {
  /** Heading it stands under. */
  readonly group: string;
  /** Code name, as in a plate job: `helixAngle`. */
  readonly name: string;
  /** Option name without dashes, as on the command line: `helix-angle`. */
  readonly option: string;
  readonly kind: FieldKind;
  /** `mm`, `in`, `°` or empty. */
  readonly unit: string;
  /** `from 0 to 45°` */
  readonly range: string;
  /** The default as it could be typed, or in words what it is worked out from; empty if the field is required. */
  readonly default: string;
  /** Whether `default` is words, not a value. */
  readonly derived: boolean;
  /** Standard symbol, or empty. */
  readonly symbol: string;
  readonly help: string;
  /** Empty but for choices. */
  readonly choices: readonly string[];
}

export interface FieldHelpGroup {
  readonly group: string;
  readonly fields: readonly FieldHelp[];
}

const describeField = ({ name, option, info, defaultValue }: Field, lengthUnit: LengthUnit): FieldHelp => ({
  group: info.group,
  name,
  option,
  kind: info.kind,
  unit: fieldUnit(info, lengthUnit),
  range: formatRange(info, lengthUnit),
  default:
    defaultValue === undefined ? (info.derived ?? '') : formatFieldValue(info, defaultValue, lengthUnit),
  derived: defaultValue === undefined && info.derived !== undefined,
  symbol: info.symbol ?? '',
  help: info.help,
  choices: info.choices ?? [],
});

/** The schema's fields in its order, lengths in `lengthUnit`. Takes a part's `parameters` or any schema of fields. */
export const listFields = (schema: ParameterSchema, lengthUnit: LengthUnit): readonly FieldHelp[] =>
  listSchemaFields(schema).map((field) => describeField(field, lengthUnit));

/** The same under their headings, in order of first appearance. */
export function groupFields(fields: readonly FieldHelp[]): readonly FieldHelpGroup[] {
  const groups = new Map<string, FieldHelp[]>();
  for (const field of fields) groups.set(field.group, [...(groups.get(field.group) ?? []), field]);
  return [...groups].map(([group, rows]) => ({ group, fields: rows }));
}
