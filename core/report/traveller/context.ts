import type { PartSummary, Summary } from '../../job/summary.js';
import type { FindingGroup } from '../findings.js';
import type { Format } from '../format.js';
import { type Html, html } from '../html.js';

/** What every section of the traveller works from. */
export interface Context {
  readonly summary: Summary;
  readonly f: Format;
  /** The address of a picture, for `src`; undefined where there is no such picture. */
  readonly picture: (kind: PictureKind, name: string) => Html | undefined;
  readonly findings: readonly FindingGroup[];
}

/**
 * What a traveller shows: the gated pattern (PNG), the plan of a plate, the dimensioned drawing of a part, a section
 * through the mould and the castings seen from outside as the calculation of freezing colours them (SVG).
 */
export type PictureKind = 'preview' | 'plan' | 'drawing' | 'freezeSection' | 'freezeSurface';

/** The alloy's title where the charge or the pour gives one, else its name. */
export const alloyTitle = (summary: Summary, alloy: string): string =>
  summary.charge.find((c) => c.alloy === alloy)?.title ??
  summary.pour.find((p) => p.alloy === alloy)?.title ??
  alloy;

/** Text that came from the job; kept apart so that its writing direction cannot disturb what stands beside it. */
export const own = (text: string): Html => html`<bdi>${text}</bdi>`;

/** `d_a` with a real subscript. */
export const symbol = (text: string): Html => {
  const [base, ...rest] = text.split('_');
  return rest.length === 0 ? html`${text}` : html`${base}<sub>${rest.join(',')}</sub>`;
};

/** What the job's moulds are. */
export const mouldOf = ({ coating }: Summary): 'flask' | 'shell' => (coating ? 'shell' : 'flask');

/** Castings in the whole job. */
export const pieces = (parts: readonly PartSummary[]): number =>
  parts.reduce((sum, p) => sum + p.quantity, 0);

/** Moulds in the whole job: one for each casting, or for each tree of them. */
export const moulds = (parts: readonly PartSummary[]): number => parts.reduce((sum, p) => sum + p.moulds, 0);

/** `× 6`, or `× 2 of 3`: moulds of so many patterns each; nothing for one of one. */
export const mouldTimes = ({ moulds: count, patternsPerTree: each }: PartSummary): string =>
  each > 1 ? `×\u00A0${count} of\u00A0${each}` : count > 1 ? `×\u00A0${count}` : '';

export const sum = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0);

/** With a capital, to begin a line. */
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** `1 flask`, `2 flasks`. */
export const plural = (n: number, one: string, many = `${one}s`): string => `${n} ${n === 1 ? one : many}`;

/** A part's name as a row heading, with how many of it. */
export const partHead = (p: PartSummary): Html =>
  html`<th scope="row" class="part">${own(p.name)}${p.quantity > 1 && html` <span class="times">× ${p.quantity}${p.patternsPerTree > 1 && `, ${p.patternsPerTree} on a tree`}</span>`}</th>`;
