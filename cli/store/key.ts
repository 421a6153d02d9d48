import { createHash } from 'node:crypto';

/**
 * The key of what is made from `value`, plain data and bytes: SHA-256 over its canonical text, 64 hexadecimal digits.
 * Equal data has one key whatever the order of its fields; a field that is undefined is as if left out.
 * @throws TypeError for what has no text of its own, such as a function or a date
 */
export const keyOf = (value: unknown): string =>
  createHash('sha256').update(canonicalText(value)).digest('hex');

/** JSON with sorted fields. What JSON would take for something else (NaN, −0, bytes) has a token of its own. */
export function canonicalText(value: unknown): string {
  if (value === null || typeof value === 'boolean' || typeof value === 'string') return JSON.stringify(value);
  if (typeof value === 'number') return Object.is(value, -0) ? '-0' : String(value);
  if (value instanceof Uint8Array) return `bytes:${createHash('sha256').update(value).digest('hex')}`;
  if (Array.isArray(value))
    return `[${value.map((v) => (v === undefined ? 'void' : canonicalText(v))).join()}]`;
  if (typeof value === 'object' && isPlain(value)) {
    const fields = Object.entries(value).filter(([, v]) => v !== undefined);
    fields.sort(([a], [b]) => (a < b ? -1 : 1));
    return `{${fields.map(([name, v]) => `${JSON.stringify(name)}:${canonicalText(v)}`).join()}}`;
  }
  throw new TypeError(`A key cannot be made of ${Object.prototype.toString.call(value)}.`);
}

const isPlain = (value: object): boolean => {
  const prototype: unknown = Object.getPrototypeOf(value);
  return prototype === Object.prototype || prototype === null;
};
