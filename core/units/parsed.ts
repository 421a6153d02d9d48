/**
 * What every reader of human text gives: a value, or what is wrong with the text and how to write it.
 * `problem` is a predicate whose subject is the text (`has the unknown unit "foo"`); `remedy` says what would be
 * right (`write it like 38mm or 1.5in`).
 */
export type Parsed<T = number> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problem: string; readonly remedy: string };

export type Unparsed = Extract<Parsed, { ok: false }>;

export const parsed = <T>(value: T): Parsed<T> => ({ ok: true, value });

export const unparsed = (problem: string, remedy: string): Unparsed => ({ ok: false, problem, remedy });
