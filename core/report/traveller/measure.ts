import type { PartSummary } from '../../job/summary.js';
import { type Html, html } from '../html.js';
import { type Context, own } from './context.js';
import { bodyRows } from './rows.js';
import { dimensionHead, dimensionValue, isCorrected, printedSize } from './sizes.js';
import { renderStep } from './step.js';

/** Sheets printed for one part; more pieces than this share a copied sheet. */
const mostSheets = 4;

function sheet({ f }: Context, p: PartSummary, piece: number): Html {
  const u = f.lengthUnit;
  const blank = html`<td class="blank"></td>`;
  const rows = [
    ...p.dimensions.map(
      (row) => html`<tr class="tall">${dimensionHead(row)}
<td class="n">${dimensionValue(row, printedSize(row, p), f)}</td>${blank}
<td class="n">${dimensionValue(row, row.casting, f)}</td>${blank}
<td class="n strong">${dimensionValue(row, row.part, f)}</td>${blank}</tr>`,
    ),
    html`<tr class="tall"><th scope="row">Mass, sawn and clean</th><td class="n"></td><td></td><td class="n">${f.mass(p.mass.casting)}</td>${blank}<td class="n strong">${f.mass(p.mass.part)}</td>${blank}</tr>`,
    html`<tr class="tall"><th scope="row" colspan="5">Growth this piece teaches: a pattern size measured ÷ the same casting size measured (worked with ${f.growth(p.growth.value)})</th><td class="blank" colspan="2"></td></tr>`,
  ];
  return html`<table class="list inspect">
<thead>
<tr><th colspan="7" class="sheet-head">${own(p.name)}: piece ${piece} of ${p.quantity}</th></tr>
<tr><th>size, ${u}</th><th class="n">pattern${isCorrected(p) && ' should be'}</th><th class="n">measured</th><th class="n">casting</th><th class="n">measured</th><th class="n">part</th><th class="n">finished</th></tr></thead>
${bodyRows(rows, 3)}
</table>`;
}

function sheets(ctx: Context, p: PartSummary): Html {
  const shown = Math.min(p.quantity, mostSheets);
  return html`${Array.from({ length: shown }, (_, i) => sheet(ctx, p, i + 1))}${
    p.quantity > shown && html`<p class="small">Copy this sheet for pieces ${shown + 1} to ${p.quantity}.</p>`
  }`;
}

/** Step 10: the inspection sheets. */
export const measureStep = (ctx: Context, number: number): Html =>
  renderStep(ctx, {
    number,
    id: 'measure',
    title: 'Measure and pass for use',
    lead: 'One sheet a piece. Measure pattern, casting and finished part at the same places, cold. Measured pattern and casting sizes teach the growth for the next pour.',
    cautions: ['use'],
    body: ctx.summary.parts.map((p) => sheets(ctx, p)),
  });
