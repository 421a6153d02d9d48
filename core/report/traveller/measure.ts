import { castingsOf } from '../../job/castings-of.js';
import type { DimensionRow, PartSummary } from '../../job/summary.js';
import type { Format } from '../format.js';
import { type Html, html } from '../html.js';
import { type BasisEntry, basisList } from './basis.js';
import { type Context, own, symbol } from './context.js';
import { bodyRows } from './rows.js';
import { dimensionHead, dimensionValue, isCorrected, printedSize } from './sizes.js';
import { renderStep } from './step.js';

/** Pieces of one part with a sheet of their own; more pieces than this share a copied sheet. */
const mostPieces = 6;

const blank = html`<td class="blank"></td>`;
/** A size that is set or calculated has no box, and so no tall row. */
const boxOf = (row: DimensionRow): Html => (row.role ? html`<td class="no-box">–</td>` : blank);
const rowClass = (row: DimensionRow): string => row.role ?? 'tall';

const measured = (p: PartSummary): readonly DimensionRow[] =>
  p.dimensions.filter((row) => row.role !== 'reference');

/** Sizes that are only calculated from others, in a line: nobody measures them. */
function calculated(p: PartSummary, f: Format): Html {
  const rows = p.dimensions.filter((row) => row.role === 'reference');
  const unit = (row: DimensionRow): string => (row.unit === 'mm' ? `\u00A0${f.lengthUnit}` : '');
  const size = (row: DimensionRow): Html => {
    const [part, pattern] = [row.part, printedSize(row, p)].map((x) => dimensionValue(row, x, f));
    const how = row.method === 'calculated' ? '' : `; ${row.method}`;
    return html`${row.name} <i class="symbol">${symbol(row.symbol)}</i> ${part}${unit(row)}${
      part !== pattern && ` (pattern ${pattern}${unit(row)})`
    }${how}`;
  };
  return rows.length === 0
    ? html``
    : html`<p class="small calculated"><b>Calculated, not measured:</b> ${rows.map((row, i) => html`${i > 0 && '; '}${size(row)}`)}.</p>`;
}

/** The casting's size with its tolerance. */
const castingCell = (row: DimensionRow, f: Format): Html =>
  html`<td class="n">${dimensionValue(row, row.casting, f)}${
    row.castingTolerance !== undefined &&
    html` <span class="plus-minus">± ${dimensionValue(row, row.castingTolerance, f)}</span>`
  }</td>`;
const patternHead = (p: PartSummary): string => (isCorrected(p) ? 'pattern should be' : 'pattern');

/** One piece: each size has its box beside it. */
function singleSheet({ f }: Context, p: PartSummary, piece: number): Html {
  const rows = [
    ...measured(p).map(
      (row) => html`<tr class="${rowClass(row)}">${dimensionHead(row)}
<td class="n">${dimensionValue(row, printedSize(row, p), f)}</td>${boxOf(row)}
${castingCell(row, f)}${boxOf(row)}
<td class="n strong">${dimensionValue(row, row.part, f)}</td>${boxOf(row)}</tr>`,
    ),
    html`<tr class="tall"><th scope="row">Mass, sawn and clean</th><td></td><td></td><td class="n">${f.mass(p.mass.casting)}</td>${blank}<td class="n strong">${f.mass(p.mass.part)}</td>${blank}</tr>`,
    html`<tr class="tall"><th scope="row" colspan="5">${growthLine(p, f.growth(p.growth.value))}</th><td class="blank" colspan="2"></td></tr>`,
  ];
  return html`<table class="list inspect">
<thead>
<tr><th colspan="7" class="sheet-head">${own(p.name)}: piece ${piece} of ${p.quantity}</th></tr>
<tr><th>size, ${f.lengthUnit}</th><th class="n">${patternHead(p)}</th><th class="n">measured</th><th class="n">casting</th><th class="n">measured</th><th class="n">part</th><th class="n">finished</th></tr></thead>
${bodyRows(rows)}
</table>`;
}

/** Two pieces on one sheet: the three sizes once, then three boxes a piece. */
function pairSheet({ f }: Context, p: PartSummary, first: number): Html {
  const boxes = (row: DimensionRow): readonly Html[] => [boxOf(row), boxOf(row), boxOf(row)];
  const value = (row: DimensionRow, x: number): string => dimensionValue(row, x, f);
  const rows = [
    ...measured(p).map(
      (row) => html`<tr class="${rowClass(row)}">${dimensionHead(row)}
<td class="n">${value(row, printedSize(row, p))}</td>${castingCell(row, f)}<td class="n strong">${value(row, row.part)}</td>${boxes(row)}${boxes(row)}</tr>`,
    ),
    html`<tr class="tall"><th scope="row">Mass, sawn and clean</th><td></td><td class="n">${f.mass(p.mass.casting)}</td><td class="n strong">${f.mass(p.mass.part)}</td><td></td>${blank}${blank}<td></td>${blank}${blank}</tr>`,
    html`<tr class="tall"><th scope="row" colspan="4">${growthLine(p, f.growth(p.growth.value))}</th><td class="blank" colspan="3"></td><td class="blank" colspan="3"></td></tr>`,
  ];
  const heads = html`<th class="n">pattern</th><th class="n">casting</th><th class="n">finished</th>`;
  return html`<table class="list inspect pair">
<thead>
<tr><th colspan="10" class="sheet-head">${own(p.name)}: pieces ${first} and ${first + 1} of ${p.quantity}</th></tr>
<tr><th rowspan="2">size, ${f.lengthUnit}</th><th class="n" rowspan="2">${patternHead(p)}</th><th class="n" rowspan="2">casting</th><th class="n" rowspan="2">part</th><th class="piece" colspan="3">measured: piece ${first}</th><th class="piece" colspan="3">measured: piece ${first + 1}</th></tr>
<tr>${heads}${heads}</tr></thead>
${bodyRows(rows)}
</table>`;
}

const growthLine = (p: PartSummary, growth: string): Html =>
  html`Growth ${p.quantity > 1 ? 'each' : 'this'} piece teaches: a pattern size ÷ the same casting size, both measured (worked with ${growth})`;

/** The finished part's drawing at its own size: a rule laid on it reads true at the scale given. */
function drawingOf(ctx: Context, p: PartSummary): Html {
  const drawing = ctx.picture('drawing', p.name);
  if (drawing === undefined) return html``;
  return html`<div class="drawing"><h3>${own(p.name)} <span class="light">${p.title}</span></h3>
<img src="${drawing}" alt="Dimensioned drawing of ${p.name}"/></div>`;
}

function sheets(ctx: Context, p: PartSummary): Html {
  const shown = Math.min(p.quantity, mostPieces);
  const pairs = Math.floor(shown / 2);
  return html`${drawingOf(ctx, p)}${calculated(p, ctx.f)}${Array.from({ length: pairs }, (_, i) => pairSheet(ctx, p, 2 * i + 1))}${
    shown % 2 === 1 && singleSheet(ctx, p, shown)
  }${
    p.quantity > shown &&
    html`<p class="small">Copy this sheet for ${p.quantity === shown + 1 ? `piece ${p.quantity}` : `pieces ${shown + 1} to ${p.quantity}`}.</p>`
  }`;
}

/** Step 10: the inspection sheets. */
export function measureStep(ctx: Context, number: number): Html {
  const parts = castingsOf(ctx.summary.parts);
  const bases: BasisEntry[] = parts.flatMap((p) =>
    p.castingTolerance && p.dimensions.some((row) => row.castingTolerance !== undefined)
      ? [{ label: 'casting tolerance ±', where: p.name, basis: p.castingTolerance.basis }]
      : [],
  );
  return renderStep(ctx, {
    number,
    id: 'measure',
    title: 'Measure and pass for use',
    lead: 'Measure pattern, casting and finished part at the same places, cold. Measured pattern and casting sizes teach the growth for the next pour.',
    cautions: ['use'],
    body: html`${parts.map((p) => sheets(ctx, p))}${basisList(bases)}`,
  });
}
