import type { PartSummary } from '../../job/summary.js';
import { type Html, html } from '../html.js';
import { type Context, own } from './context.js';
import { bodyRows } from './rows.js';
import { dimensionHead, dimensionValue, isCorrected, printedSize } from './sizes.js';
import { checklist, renderStep } from './step.js';

function sizeTable({ f }: Context, p: PartSummary): Html {
  const corrected = isCorrected(p);
  return html`<div class="sizes">
<h3>${own(p.name)} <span class="light">growth × ${f.growth(p.growth.value)}${
    corrected &&
    `, printer correction × ${f.growth(p.printerCorrection.xy)} across, × ${f.growth(p.printerCorrection.z)} upward`
  }</span></h3>
<table class="list brief">
<thead><tr><th>size, ${f.lengthUnit}</th><th class="n">part</th><th class="n">casting</th>${
    corrected && html`<th class="n">file</th>`
  }<th class="n strong">${corrected ? 'pattern should measure' : 'pattern'}</th></tr></thead>
${bodyRows(
  p.dimensions
    .filter((row) => !row.detail)
    .map(
      (row) => html`<tr>${dimensionHead(row)}
<td class="n">${dimensionValue(row, row.part, f)}</td><td class="n">${dimensionValue(row, row.casting, f)}</td>${
        corrected && html`<td class="n">${dimensionValue(row, row.pattern, f)}</td>`
      }<td class="n strong">${dimensionValue(row, printedSize(row, p), f)}</td></tr>`,
    ),
)}
</table>
</div>`;
}

/** Step 2: sizes in the three states. */
export const checkStep = (ctx: Context, number: number): Html =>
  renderStep(ctx, {
    number,
    id: 'check',
    title: 'Check the pattern',
    lead: 'A pattern that is wrong here costs plastic; later it costs metal. Let it cool, then measure it against the last column.',
    cautions: [],
    body: html`<p class="small"><b>Part</b>: the finished metal part. <b>Casting</b>: part with finishing stock. <b>Pattern</b>: casting with growth. Part and casting sizes are at 20 °C (68 °F). Write what you measure on the inspection sheets under <i>Measure</i>.</p>
${checklist([
  'Count the patterns against the plates.',
  'Sprue, cup and vents are whole and joined; no strings or gaps between layers, none across a bore or the vents.',
  'Layer seams on working surfaces are scraped off.',
])}
${ctx.summary.parts.map((p) => sizeTable(ctx, p))}`,
  });
