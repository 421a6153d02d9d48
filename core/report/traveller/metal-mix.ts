/** What to weigh of each metal on the shelf, and how to charge the pot. */

import { elementNames } from '../../foundry/charge/elements.js';
import type { MadeMix } from '../../foundry/charge/metal-mix.js';
import type { ChargePlan } from '../../foundry/plans.js';
import { formatNumber } from '../../units/index.js';
import { decimals } from '../format.js';
import { type Html, html } from '../html.js';
import { readersUnits } from '../reader-units.js';
import { type Context, capital, own, sum } from './context.js';
import { bodyRows } from './rows.js';
import { checklist } from './step.js';

/** Columns of heats that a page takes. */
const mostHeats = 4;

/** The heats in runs of at most four, by number from 0. */
const runsOf = (heats: number): readonly (readonly number[])[] =>
  Array.from({ length: Math.ceil(heats / mostHeats) }, (_, run) =>
    Array.from({ length: Math.min(mostHeats, heats - run * mostHeats) }, (_, i) => run * mostHeats + i),
  );

const limits = (min: number | undefined, max: number | undefined): string => {
  const number = (n: number): string => formatNumber(n, { digits: 2 });
  if (min !== undefined && max !== undefined) return ` (${number(min)} to ${number(max)})`;
  if (min !== undefined) return ` (at least ${number(min)})`;
  return max === undefined ? '' : ` (at most ${number(max)})`;
};

function expected({ composition, unknown }: MadeMix): Html {
  const shares = composition.map(
    ({ element, share, min, max }) =>
      `${elementNames[element]} ${decimals(share, share < 1 ? 2 : 1)} %${limits(min, max)}`,
  );
  if (unknown >= 0.005) shares.push(`${elementNames['unknown metal']} ${decimals(unknown, 2)} %`);
  return html`<p class="small">Expected in the melt, what burns off taken off; in brackets what the specification allows: ${shares.join(', ')}. By mass, reckoned, not analysed.</p>`;
}

/** The mix of one alloy; nothing where the shop lists no metals. */
export function metalMix({ f, summary }: Context, { title, melt }: ChargePlan): Html {
  const mix = melt?.mix;
  if (mix === undefined) return html``;
  if (!mix.ok)
    return html`<p>${title} cannot be made of the metals the shop lists: see the findings. Weigh out bought ingot of known analysis.</p>`;
  const step = melt?.scaleStep ?? 1;
  const money = summary.cost?.currency;
  const runs = runsOf(mix.metals[0]?.heats.length ?? 0);
  const tables = runs.map((run, i) => {
    const last = i === runs.length - 1;
    const several = run.length > 1 || runs.length > 1;
    const rows = mix.metals.map(
      (m) => html`<tr class="tall"><th scope="row" class="part">${own(m.name)}</th>
${run.map((h) => html`<td class="n strong">${f.weighed(m.heats[h] ?? 0, step)}</td><td class="blank"></td>`)}
${last && html`${several && html`<td class="n">${f.weighed(m.mass, step)}</td>`}<td class="n">${m.left === undefined ? '–' : f.weighed(m.left, step)}</td>`}</tr>`,
    );
    const totals = run.map(
      (h) =>
        html`<td class="n">${f.weighed(sum(mix.metals.map((m) => m.heats[h] ?? 0)), step)}</td><td></td>`,
    );
    return html`<table class="list by-part">
<thead><tr><th>metal, in this order</th>${run.map(
      (h) =>
        html`<th class="n strong">${several ? `heat ${h + 1}` : 'weigh out'}</th><th class="n">weighed</th>`,
    )}${last && html`${several && html`<th class="n">in all</th>`}<th class="n">left on the shelf</th>`}</tr></thead>
${bodyRows(rows)}<tbody><tr class="total"><td>charge</td>${totals}${last && html`${several && html`<td class="n">${f.weighed(sum(mix.metals.map((m) => m.mass)), step)}</td>`}<td></td>`}</tr></tbody></table>`;
  });
  return html`<div class="sizes"><h3>${title} from the shelf</h3>
${tables}
${expected(mix)}
${money !== undefined && html`<p class="small">The cheapest mix in specification: ${money} ${mix.cost.toFixed(2)}.</p>`}
${checklist(mix.order.map((step) => readersUnits(step, f.view)))}</div>`;
}

/** The bench copy's list of one alloy, heat by heat. */
export const metalsOnBench = (f: Context['f'], mix: MadeMix, step: number): Html =>
  html`${runsOf(mix.metals[0]?.heats.length ?? 0).map(
    (
      run,
    ) => html`<table><thead><tr><th>in this order</th>${run.map((h) => html`<th class="n">${mix.metals[0]!.heats.length > 1 ? `heat ${h + 1}` : 'weigh out'}</th>`)}</tr></thead>
<tbody>${mix.metals.map(
      (m) =>
        html`<tr><th scope="row">${own(capital(m.name))}</th>${run.map((h) => html`<td class="n">${f.weighed(m.heats[h] ?? 0, step)}</td>`)}</tr>`,
    )}</tbody></table>`,
  )}`;
