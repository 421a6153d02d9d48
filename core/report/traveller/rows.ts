import { type Html, html } from '../html.js';

/**
 * Rows as table bodies that do not break across pages: all of a short table together, else `ends` rows at either
 * end, so that no page begins or ends with a lone row under a repeated heading.
 */
export function bodyRows(rows: readonly Html[], ends = 2): Html {
  const groups =
    rows.length <= 2 * ends + 1
      ? [rows]
      : [rows.slice(0, ends), ...rows.slice(ends, -ends).map((r) => [r]), rows.slice(-ends)];
  return html`${groups.map((g) => html`<tbody class="keep">${g}</tbody>`)}`;
}
