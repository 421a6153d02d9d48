import type { PlateSummary, Summary } from '../../job/summary.js';
import type { Format } from '../format.js';
import { type Html, html } from '../html.js';
import { alloyTitle, type Context, own, plural, sum } from './context.js';
import { checklist, renderStep } from './step.js';

function plateCard({ f, picture, summary }: Context, plate: PlateSummary): Html {
  const names = [...new Set(plate.placements.map((p) => p.name))];
  const plan = picture('plan', plate.name);
  return html`<div class="plate">
<div class="plan">${
    plan === undefined
      ? html`<span class="light">no drawing</span>`
      : html`<img src="${plan}" alt="Plan of ${plate.name}"/>`
  }</div>
<div class="facts">
<h3>${own(plate.name)}</h3>
<table class="list">
<thead><tr><th>pattern</th><th class="n">on this plate</th></tr></thead>
<tbody>${names.map(
    (n) =>
      html`<tr><td>${own(n)}</td><td class="n">${plate.placements.filter((p) => p.name === n).length}</td></tr>`,
  )}</tbody>
</table>
<table>
${plate.batch !== undefined && html`<tr><th scope="row">${summary.nesting.sortBy === 'flask' ? 'for flasks' : 'poured in'}</th><td>${batchTitle(summary, plate.batch)}</td></tr>`}
<tr><th scope="row">filled, inside margin</th><td>${f.percent(plate.filled, 0)}</td></tr>
<tr><th scope="row">highest point</th><td>${f.rough(plate.height)}</td></tr>
<tr><th scope="row">plastic, printed solid</th><td>${f.massDual(plate.plastic)}</td></tr>
${Object.values(plate.files).length > 0 && html`<tr><th scope="row">files</th><td>${Object.values(plate.files).map((file, i) => html`${i > 0 && html`<br/>`}${file}`)}</td></tr>`}
</table>
<div class="write"><span>printed on</span><span>filament and colour</span></div>
</div>
</div>`;
}

const batchTitle = (summary: Summary, batch: string): Html => own(alloyTitle(summary, batch));

/** Every plate in a line, where there are several. */
function plateTable({ f, summary: s }: Context): Html {
  if (s.plates.length < 2) return html``;
  const sorted = s.plates.some((p) => p.batch !== undefined);
  return html`<table class="list keep">
<thead><tr><th>plate</th>${sorted && html`<th>${s.nesting.sortBy === 'flask' ? 'flask' : 'alloy'}</th>`}<th class="n">patterns</th><th class="n">highest point</th><th class="n">plastic if solid</th><th class="n">filled, inside margin</th></tr></thead>
<tbody>${s.plates.map(
    (p) =>
      html`<tr><td>${own(p.name)}</td>${sorted && html`<td>${p.batch !== undefined && batchTitle(s, p.batch)}</td>`}<td class="n">${p.placements.length}</td><td class="n">${f.rough(p.height)}</td><td class="n">${f.mass(p.plastic)}</td><td class="n">${f.percent(p.filled, 0)}</td></tr>`,
  )}</tbody>
</table>`;
}

/** `a bed 220 × 220 × 250 mm`, `a round bed 200 mm across and 250 mm high` */
const bedWords = ({ bed }: Summary, f: Format): string =>
  bed.shape === 'circle'
    ? `a round bed ${f.rough(bed.width)} across and ${f.rough(bed.height)} high`
    : `a bed ${f.box([bed.width, bed.depth, bed.height])}`;

/** What the plates were laid out for beyond the bed's size. */
function bedNotes({ summary: { bed }, f }: Context): readonly string[] {
  const zones = bed.keepOuts.length;
  return [
    ...(bed.brim > 0
      ? [
          `Add a brim of ${f.rough(bed.brim)} round each pattern: the plates have room for it, the files do not hold it.`,
        ]
      : []),
    ...(zones > 0
      ? [
          `Patterns keep out of ${plural(zones, 'zone')} of the bed, hatched on the plans. Lay the plate as drawn, front to front.`,
        ]
      : []),
  ];
}

const corrected = ({ summary: { parts } }: Context): boolean =>
  parts.some((p) => p.printerCorrection.xy !== 1 || p.printerCorrection.z !== 1);

/** Step 1: the plates. */
export function printStep(ctx: Context, number: number): Html {
  const { summary: s, f } = ctx;
  const { bed } = s;
  return renderStep(ctx, {
    number,
    id: 'print',
    title: 'Print',
    lead: `${plural(s.plates.length, 'plate')}, ${f.mass(sum(s.plates.map((p) => p.plastic)))} of plastic if printed solid, on ${bedWords(s, f)} with a margin of ${f.rough(bed.margin)}.`,
    cautions: ['print'],
    body: html`${checklist([
      'Open the 3MF, which carries its unit. If the STL is used, tell the slicer it is in millimetres.',
      `Print at 100 %, as it lies. Growth${corrected(ctx) ? ' and the printer’s correction are' : ' is'} already in the pattern; print-up is pour-up.`,
      'Sprue, cup and vents stand at 45° or steeper and need no support. A finding says where a part itself does.',
      'Use plain, unfilled filament: pigment and filler stay in the mould as ash.',
      ...bedNotes(ctx),
    ])}
${plateTable(ctx)}
${s.plates.map((p) => plateCard(ctx, p))}`,
  });
}
