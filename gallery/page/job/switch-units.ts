/** The job in other units, every size as it was. */

import { bedFields, keepOutFields } from '../../../core/job/bed-schema.js';
import { gatingFields } from '../../../core/job/gating-schema.js';
import type { Job } from '../../../core/job/job.js';
import { flaskFields, settingsFields, stockFields } from '../../../core/job/job-schema.js';
import type { ParameterSchema } from '../../../core/part/contract.js';
import { type Field, listSchemaFields } from '../../../core/part/field-list.js';
import type { LengthUnit } from '../../../core/units/index.js';
import { findPart } from '../../../generators/index.js';
import { plainJob, setValues } from './document.js';
import type { Path } from './path.js';

type Group = Readonly<Record<string, unknown>>;

const isGroup = (value: unknown): value is Group =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** A number as lengths are written, with the word or mark that follows it. */
const writtenNumbers = /(?:\d+[ -])?\d+(?:[./]\d+)*\s*([a-z]+|["\u2033])?/gi;
const lengthUnits = /^([mc]?m|in|inch|inches|ft|["\u2033])$/i;

/**
 * Texts of a job's parts in which numbers stand without a unit, like `bore at 12, 30`: in other units they would be
 * read as other places, and only the part itself knows which of them are lengths.
 */
export const textsWithBareNumbers = ({ parts }: Pick<Job, 'parts'>): readonly string[] =>
  parts.flatMap(({ part, parameters }) => {
    const schema = findPart(part)?.parameters;
    const fields = schema === undefined ? [] : listSchemaFields(schema);
    const texts = fields.flatMap(({ name, info }) =>
      info.kind === 'text' ? [String(parameters[name] ?? '')] : [],
    );
    return texts.filter((text) =>
      [...text.matchAll(writtenNumbers)].some(([, unit = '']) => !lengthUnits.test(unit)),
    );
  });

/** A length without a unit: `24`, `1 1/2`. */
const isBare = (value: unknown): boolean =>
  typeof value === 'number' || (typeof value === 'string' && /^\s*[\d./ -]+\s*$/.test(value));

/**
 * The text with `units` changed. Bare lengths, which would be read anew, get the unit they have had; what is under
 * `shop` is left as it is. Whoever calls compares the jobs before and after.
 */
export function switchUnits(text: string, from: LengthUnit, to: LengthUnit): string {
  const raw = plainJob(text);
  const entries = Array.isArray(raw.parts) ? raw.parts : [];
  const flasks = Array.isArray(raw.flasks) ? raw.flasks : [];
  const bare = [
    ...bareIn(raw, settingsFields, []),
    ...bareIn(raw.stock, stockFields, ['stock']),
    ...bareIn(raw.bed, bedFields, ['bed']),
    ...zonesOf(raw.bed).flatMap((zone, i) => bareIn(zone, keepOutFields, ['bed', 'keepOut', String(i)])),
    ...bareIn(raw.gating, gatingFields, ['gating']),
    ...flasks.flatMap((flask, i) => bareIn(flask, flaskFields, ['flasks', String(i)])),
    ...entries.flatMap((entry: unknown, i) => {
      if (!isGroup(entry)) return [];
      const at = ['parts', String(i)];
      const schema = findPart(String(entry.part))?.parameters;
      return [
        ...(schema ? bareIn(entry.parameters, schema, [...at, 'parameters']) : []),
        ...bareIn(entry.stock, stockFields, [...at, 'stock']),
        ...bareIn(entry.gating, gatingFields, [...at, 'gating']),
      ];
    }),
  ];
  const told = bare.map(({ path, value }) => ({ path, value: `${String(value).trim()}${from}` }));
  return setValues(text, [...told, { path: ['units'], value: to }]);
}

const zonesOf = (bed: unknown): readonly unknown[] =>
  isGroup(bed) && Array.isArray(bed.keepOut) ? bed.keepOut : [];

function bareIn(group: unknown, schema: ParameterSchema, at: Path): { path: Path; value: unknown }[] {
  if (!isGroup(group)) return [];
  const isLength = (key: string, { name, option, info }: Field): boolean =>
    info.kind === 'length' && (key === name || key === option);
  const fields = listSchemaFields(schema);
  return Object.entries(group).flatMap(([key, value]) =>
    isBare(value) && fields.some((field) => isLength(key, field)) ? [{ path: [...at, key], value }] : [],
  );
}
