import { castingsOf } from '../../job/castings-of.js';
import type { DimensionRow, PartSummary } from '../../job/summary.js';
import { type Html, html } from '../html.js';
import { type Context, own } from './context.js';
import { dimensionHead, dimensionValue, isCorrected, printedSize } from './sizes.js';
import { checklist, renderStep } from './step.js';

/** How many sizes of a part tell whether its print is right; the others stand on its inspection sheet. */
const mostSizes = 5;

/** The leading sizes of a part, one of them upward if it has one: print errors differ across and upward. */
export function tellingSizes(p: PartSummary): readonly DimensionRow[] {
  const main = p.dimensions.filter((row) => !row.detail && row.role === undefined && row.pattern > 0);
  const first = main.slice(0, mostSizes);
  const upward = main.find((row) => row.axis === 'z');
  return upward === undefined || first.includes(upward) ? first : [...first.slice(0, -1), upward];
}

function sizeRows({ f }: Context, p: PartSummary, anyCorrected: boolean): Html {
  const rows = tellingSizes(p);
  const { xy, z } = p.printerCorrection;
  const head = html`<th scope="rowgroup" class="part" rowspan="${Math.max(1, rows.length)}">${own(p.name)}<span class="method">growth × ${f.growth(p.growth.value)}${
    isCorrected(p) && `, printer correction × ${f.growth(xy)} across, × ${f.growth(z)} upward`
  }</span></th>`;
  if (rows.length === 0)
    return html`<tbody><tr>${head}<td colspan="${anyCorrected ? 5 : 4}">see its inspection sheet</td></tr></tbody>`;
  return html`<tbody class="keep">${rows.map(
    (row, i) => html`<tr>${i === 0 && head}${dimensionHead(row)}
<td class="n">${dimensionValue(row, row.part, f)}</td><td class="n">${dimensionValue(row, row.casting, f)}</td>${
      anyCorrected && html`<td class="n">${dimensionValue(row, row.pattern, f)}</td>`
    }<td class="n strong">${dimensionValue(row, printedSize(row, p), f)}</td></tr>`,
  )}</tbody>`;
}

/** The sizes that tell most, all parts in one table. */
function sizeTable(ctx: Context): Html {
  const parts = castingsOf(ctx.summary.parts);
  const corrected = parts.some(isCorrected);
  return html`<table class="list brief by-part close">
<thead><tr><th>pattern</th><th>size, ${ctx.f.lengthUnit}</th><th class="n">part</th><th class="n">casting</th>${
    corrected && html`<th class="n">file</th>`
  }<th class="n strong">${corrected ? 'pattern should measure' : 'pattern'}</th></tr></thead>
${parts.map((p) => sizeRows(ctx, p, corrected))}
</table>`;
}

/** Step 2: sizes in the three states. */
export const checkStep = (ctx: Context, number: number): Html =>
  renderStep(ctx, {
    number,
    id: 'check',
    title: 'Check the pattern',
    lead: 'A pattern that is wrong here costs plastic; later it costs metal. Let it cool, then measure it against the last column.',
    cautions: [],
    body: html`<p class="small"><b>Part</b>: the finished metal part. <b>Casting</b>: part with finishing stock. <b>Pattern</b>: casting with growth. Part and casting sizes are at 20 °C (68 °F). The sizes below tell most of a print; all of them, with boxes for what you measure, are on the inspection sheets under <i>Measure</i>.</p>
${checklist([
  'Count the patterns against the plates.',
  'Sprue, cup and vents are whole and joined; no strings or gaps between layers, none across a bore or the vents.',
  'Layer seams on working surfaces are scraped off.',
])}
${sizeTable(ctx)}`,
  });
