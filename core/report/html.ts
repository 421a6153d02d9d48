/** Markup that may be put in a document as it stands. Only `html` and `raw` make it. */
export class Html {
  constructor(readonly text: string) {}
  toString(): string {
    return this.text;
  }
}

export type HtmlValue = string | number | Html | null | undefined | false | readonly HtmlValue[];

const entities: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/**
 * Text that is safe between tags and in quoted attributes. Characters that XML and HTML do not allow (control
 * characters, halves of surrogate pairs) become U+FFFD.
 */
export function escapeHtml(text: string): string {
  return text.replace(forbidden, '\uFFFD').replace(/[&<>"']/g, (c) => entities[c] ?? c);
}

const forbidden =
  /[^\t\n\r\u{20}-\u{7E}\u{A0}-\u{D7FF}\u{E000}-\u{FDCF}\u{FDF0}-\u{FFFD}\u{10000}-\u{10FFFD}]/gu;

const render = (value: HtmlValue): string => {
  if (value === null || value === undefined || value === false) return '';
  if (value instanceof Html) return value.text;
  if (typeof value === 'object') return value.map(render).join('');
  return escapeHtml(String(value));
};

/** A piece of markup; every value put in is escaped unless it is `Html` already. Lists are joined, empty values vanish. */
export const html = (strings: TemplateStringsArray, ...values: readonly HtmlValue[]): Html =>
  new Html(strings.reduce((text, piece, i) => text + render(values[i - 1]) + piece));

/** Takes text as markup unchanged: for fixed markup of our own only. */
export const raw = (text: string): Html => new Html(text);

/** A string for CSS `content`, safe inside a style element: everything but letters, digits and spaces is escaped. */
export const cssString = (text: string): string =>
  `"${text
    .replace(forbidden, '\uFFFD')
    .replace(/\s+/g, ' ')
    .replace(/[^A-Za-z0-9 ]/gu, (c) => `\\${(c.codePointAt(0) ?? 0xfffd).toString(16)} `)}"`;
