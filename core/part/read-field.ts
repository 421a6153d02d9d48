/** One raw value of one field. */
import {
  type LengthUnit,
  type Parsed,
  parseAngle,
  parseDuration,
  parseLength,
  parseMass,
  parseNumber,
  parsePower,
  parseTemperature,
  parseTemperatureRate,
  unparsed,
} from '../units/index.js';
import type { Field } from './field-list.js';
import { formatFieldValue, formatRange } from './field-text.js';
import type { FieldInfo, FieldKind } from './fields.js';
import { type InputProblem, showText, showValue } from './input-problem.js';
import { suggest } from './suggest.js';

export type FieldValue = number | string | boolean;

export type FieldReading =
  | { readonly ok: true; readonly value: FieldValue }
  | { readonly ok: false; readonly problem: InputProblem };

/** A bound written in degrees or inches may miss the stored one by rounding; such a value is the bound. */
const boundSlack = 1e-9;

/**
 * Reads a raw value by the field's kind: text with or without a unit, or a plain number (lengths in `lengthUnit`,
 * angles in degrees). Gives mm, radians, numbers, words or booleans inside the field's range.
 */
export function readFieldValue(field: Field, raw: unknown, lengthUnit: LengthUnit): FieldReading {
  const { info } = field;
  const refuse = (code: string, message: string, remedy: string): FieldReading => ({
    ok: false,
    problem: { code, path: [field.name], got: showValue(raw), message, remedy },
  });
  const range = formatRange(info, lengthUnit);
  if (raw === null || raw === undefined) {
    return refuse(
      'missing',
      'has no value',
      field.required ? `give ${range}` : `give ${range}, or leave the key out`,
    );
  }
  if (info.kind === 'flag') return readFlag(raw) ?? refuse('wrong-type', `is ${showValue(raw)}`, range);
  if (typeof raw !== 'string' && typeof raw !== 'number') {
    return refuse('wrong-type', `is ${showValue(raw)}`, range);
  }
  if (info.kind === 'choice') {
    const word = String(raw);
    if (info.choices === undefined || info.choices.includes(word)) return { ok: true, value: word };
    const nearest = suggest(word, info.choices);
    return refuse(
      'unknown-choice',
      `is ${showValue(word)}`,
      nearest === undefined ? range : `did you mean ${nearest}? ${range}`,
    );
  }
  if (info.kind === 'text' || info.kind === 'file') return readWords(info, String(raw), refuse, range);
  if (typeof raw === 'string' && info.choices?.includes(raw)) return { ok: true, value: raw };
  const reading = readNumber(info, raw, lengthUnit);
  if (!reading.ok) {
    return refuse(
      'unreadable',
      `"${showText(String(raw))}" ${reading.problem}`,
      `${reading.remedy} (${range})`,
    );
  }
  const value = snapToBounds(info, reading.value);
  const said = () => `is ${describe(info, raw, value, lengthUnit)}`;
  if (outside(info, value)) return refuse('out-of-range', said(), range);
  if (info.kind === 'count' && !Number.isSafeInteger(value)) return refuse('not-whole', said(), range);
  return { ok: true, value };
}

/** Text as it is, but without what does not print. */
function readWords(
  info: FieldInfo,
  written: string,
  refuse: (code: string, message: string, remedy: string) => FieldReading,
  range: string,
): FieldReading {
  if (written.length > (info.longest ?? Number.POSITIVE_INFINITY))
    return refuse('too-long', `has ${written.length} characters`, range);
  if (info.kind === 'file' && written.trim() === '') return refuse('missing', 'is empty', range);
  const unprintable = info.kind === 'file' ? /[\p{Cc}\p{Cs}]/u : /[^\P{Cc}\n\t]|\p{Cs}/u;
  if (unprintable.test(written))
    return refuse('unreadable', `is ${showValue(written)}`, 'leave control characters out');
  return { ok: true, value: written };
}

const readers: Readonly<Partial<Record<FieldKind, (raw: string | number, unit: LengthUnit) => Parsed>>> = {
  length: parseLength,
  angle: (raw) => parseAngle(raw),
  temperature: readTemperature,
  'temperature-rate': (raw) => parseTemperatureRate(raw),
  duration: (raw) => parseDuration(raw, 's'),
  mass: (raw) => parseMass(raw, 'g'),
  power: (raw) => parsePower(raw, 'mm'),
  count: (raw) => parseNumber(raw, '3'),
};

const readNumber = (info: FieldInfo, raw: string | number, lengthUnit: LengthUnit): Parsed =>
  (readers[info.kind] ?? ((text) => parseNumber(text)))(raw, lengthUnit);

/** A kiln set to 1350 °C for 1350 °F is ruined: the scale must be written. */
function readTemperature(raw: string | number): Parsed {
  if (/[A-Za-z\u2103\u2109]/.test(String(raw))) return parseTemperature(raw, 'C');
  const bare = parseTemperature(raw, 'C');
  return bare.ok ? unparsed('does not say which degrees', 'write C or F, like 732C or 1350F') : bare;
}

const flagWords: Readonly<Record<string, boolean>> = { yes: true, true: true, no: false, false: false };

function readFlag(raw: unknown): FieldReading | undefined {
  if (typeof raw === 'boolean') return { ok: true, value: raw };
  if (typeof raw !== 'string' || !Object.hasOwn(flagWords, raw)) return undefined;
  return { ok: true, value: flagWords[raw]! };
}

const outside = (info: FieldInfo, value: number): boolean =>
  (info.min !== undefined && value < info.min) || (info.max !== undefined && value > info.max);

const snapToBounds = (info: FieldInfo, value: number): number => {
  for (const bound of [info.min, info.max]) {
    if (bound !== undefined && Math.abs(value - bound) <= boundSlack * Math.max(1, Math.abs(bound)))
      return bound;
  }
  return value;
};

/** What was written, and in the user's unit where that is another: `0.1in (2.54 mm)`. */
function describe(info: FieldInfo, raw: string | number, value: number, lengthUnit: LengthUnit): string {
  const written = showText(String(raw).trim());
  const shown = formatFieldValue(info, value, lengthUnit);
  if (/^[-+]?[\d.]+(e[-+]?\d+)?$/i.test(written)) return written;
  return written.replace(/ |deg/g, '') === shown.replace(/[ °]/g, '') ? written : `${written} (${shown})`;
}
