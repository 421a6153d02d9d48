import type { Basis } from '../../foundry/plans.js';
import { namesOf } from '../findings.js';
import { type Html, html } from '../html.js';

/** Names beside a rule before the rest are counted. */
const mostNames = 12;

/** A number's basis with what the number is, and the part or alloy it belongs to where there are several. */
export interface BasisEntry {
  readonly label: string;
  readonly where?: string;
  readonly basis: Basis;
}

/** `bottomDiameter`, `sprue.bottom-diameter` as words. */
export const words = (key: string): string =>
  key
    .replace(/([a-z0-9])([A-Z])/g, (_, a: string, b: string) => `${a} ${b.toLowerCase()}`)
    .replace(/[._-]+/g, ' ');

/** Entries of a plan's `bases`. */
export const basisEntries = (bases: Readonly<Record<string, Basis>>, where?: string): BasisEntry[] =>
  Object.entries(bases).map(([key, basis]) => ({
    label: words(key),
    basis,
    ...(where === undefined ? {} : { where }),
  }));

interface Line {
  readonly basis: Basis;
  readonly labels: Set<string>;
  readonly where: Set<string>;
}

/** A number with the unit it is in; numbers without one are constants of a rule. */
const quantities = /\d+(?:\.\d+)?(?=[ \u00A0](?:mm|s|°C|k?g)\b)/g;

/**
 * Entries that say the same of one number but for the quantities in it (`at most 2.8 s`, `at most 1.7 s`) as one that
 * gives their range (`at most 1.7 to 2.8 s`).
 */
function ranged(entries: readonly BasisEntry[]): readonly BasisEntry[] {
  const alike = new Map<string, BasisEntry[]>();
  for (const e of entries) {
    const key = JSON.stringify([e.label, e.basis.rule.replace(quantities, '#'), e.basis.source]);
    const group = alike.get(key);
    if (group) group.push(e);
    else alike.set(key, [e]);
  }
  return [...alike.values()].flatMap((group) => {
    const found = group.map((e) => e.basis.rule.match(quantities) ?? []);
    const first = group[0] as BasisEntry;
    let i = 0;
    const rule = first.basis.rule.replace(quantities, () => {
      const all = found.map((f) => f[i] ?? '');
      i += 1;
      const sorted = [...new Set(all)].sort((a, b) => Number(a) - Number(b));
      return sorted.length === 1 ? (sorted[0] as string) : `${sorted[0]} to ${sorted.at(-1)}`;
    });
    return group.map((e) => ({ ...e, basis: { ...e.basis, rule } }));
  });
}

/**
 * Where the numbers above came from, in small print. The same rule and source are said once, with the range of the
 * quantities in it; a rule that holds for some parts only names them.
 */
export function basisList(given: readonly BasisEntry[]): Html {
  const entries = ranged(given);
  const all = new Set(entries.flatMap((e) => (e.where === undefined ? [] : [e.where])));
  const byLabelled = new Map<string, Line>();
  const labels = [...new Set(entries.map((e) => e.label))];
  const ordered = labels.flatMap((label) => entries.filter((e) => e.label === label));
  for (const { label, where, basis } of ordered) {
    const key = JSON.stringify([label, basis.rule, basis.source]);
    const line = byLabelled.get(key) ?? { basis, labels: new Set([label]), where: new Set<string>() };
    if (where !== undefined) line.where.add(where);
    byLabelled.set(key, line);
  }
  const lines = new Map<string, Line>();
  for (const line of byLabelled.values()) {
    const key = JSON.stringify([line.basis.rule, line.basis.source, [...line.where]]);
    const seen = lines.get(key);
    if (seen === undefined) lines.set(key, line);
    else for (const label of line.labels) seen.labels.add(label);
  }
  if (lines.size === 0) return html``;
  return html`<div class="${lines.size <= 6 ? 'basis short' : 'basis'}"><p><b>Where these numbers came from</b></p><ul>${[
    ...lines.values(),
  ].map(
    ({ basis, labels, where }) =>
      html`<li><b>${[...labels].join(', ')}</b>${
        where.size > 0 &&
        where.size < all.size &&
        html` (${where.size > mostNames ? namesOf([...where], mostNames) : [...where].join(', ')})`
      }: ${basis.rule} <i>[${basis.source}]</i></li>`,
  )}</ul></div>`;
}
