import type { PlateSummary } from '../../job/summary.js';
import { type Html, html } from '../html.js';
import { type Context, own, plural, sum } from './context.js';
import { checklist, renderStep } from './step.js';

function plateCard({ f, plans }: Context, plate: PlateSummary): Html {
  const names = [...new Set(plate.placements.map((p) => p.name))];
  const plan = plans.get(plate.name);
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
<tr><th scope="row">highest point</th><td>${f.rough(plate.height)}</td></tr>
<tr><th scope="row">plastic, printed solid</th><td>${f.massDual(plate.plastic)}</td></tr>
${Object.values(plate.files).length > 0 && html`<tr><th scope="row">files</th><td>${Object.values(plate.files).map((file, i) => html`${i > 0 && html`<br/>`}${file}`)}</td></tr>`}
</table>
<div class="write"><span>printed on</span><span>filament and colour</span></div>
</div>
</div>`;
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
    lead: `${plural(s.plates.length, 'plate')}, ${f.mass(sum(s.plates.map((p) => p.plastic)))} of plastic if printed solid, on a bed ${f.box([bed.width, bed.depth, bed.height])} with a margin of ${f.rough(bed.margin)}.`,
    cautions: ['print'],
    body: html`${checklist([
      'Open the 3MF, which carries its unit. If the STL is used, tell the slicer it is in millimetres.',
      `Print at 100 %, as it lies. Growth${corrected(ctx) ? ' and the printer’s correction are' : ' is'} already in the pattern; print-up is pour-up.`,
      'Sprue, cup and vents stand at 45° or steeper and need no support. A finding says where a part itself does.',
      'Use plain, unfilled filament: pigment and filler stay in the mould as ash.',
    ])}
${s.plates.map((p) => plateCard(ctx, p))}`,
  });
}
