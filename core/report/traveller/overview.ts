import type { GrowthWay } from '../../foundry/plans.js';
import { castingsOf } from '../../job/castings-of.js';
import type { PartSummary } from '../../job/summary.js';
import { type Html, html } from '../html.js';
import { about } from './about.js';
import { basisList } from './basis.js';
import { alloyTitle, type Context, capital, mouldOf, moulds, own, pieces, plural, sum } from './context.js';
import { findingsBox, notesBox } from './findings.js';
import { notMadeBox } from './not-made.js';
import { partsMade } from './parts-made.js';

const fact = (label: string, value: Html | string): Html =>
  html`<div><dt>${label}</dt><dd>${value}</dd></div>`;

/** The job at a glance: what there is to print, mix, fire, melt and pour. */
function keyNumbers({ summary: s, f }: Context): Html {
  const [castings, count] = [pieces(s.parts), moulds(s.parts)];
  return html`<dl class="keys">
${fact('makes', plural(castings, 'casting'))}
${fact('plates to print', html`${s.plates.length}, ${f.mass(sum(s.plates.map((p) => p.plastic)))} plastic`)}
${fact(`${mouldOf(s)}s`, html`${count}, ${count === castings ? 'one a casting' : 'some with several castings on a tree'}`)}
${fact('burnout', f.duration(s.burnout.total))}
${
  s.coating
    ? html`${fact('coat and dry', f.duration(s.coating.total))}
${fact('slurry, stucco', html`${f.massDual(s.coating.slurry)}, ${f.massDual(s.coating.stucco)}`)}
`
    : html`${fact('investment powder', f.weighedDual(s.investment.weigh.powder, s.investment.weigh.step))}
${fact('water', f.weighedDual(s.investment.weigh.water, s.investment.weigh.step))}
`
}${s.charge.map((c) => fact(`weigh out: ${c.title}`, f.massDual(c.charge)))}
${s.pour.map((p) => fact(`pour: ${p.title}`, f.temperatureDual(p.metalTemperature)))}
</dl>`;
}

function costTable({ summary: { cost } }: Context): Html {
  if (cost === null) return html``;
  const money = (n: number): string => (Number.isFinite(n) ? n.toFixed(2) : '–');
  return html`<div class="keep"><h3>What it costs</h3>
<table class="list"><thead><tr><th>item</th><th class="n">quantity</th><th>unit</th><th class="n">price</th><th class="n">${cost.currency}</th></tr></thead>
<tbody>${cost.lines.map(
    (l) =>
      html`<tr><td>${own(capital(l.item))}</td><td class="n">${quantity(l.quantity)}</td><td>${l.unit}</td><td class="n">${money(l.price)}</td><td class="n">${money(l.amount)}</td></tr>`,
  )}</tbody>
<tbody><tr class="total"><td colspan="4">total</td><td class="n">${money(cost.total)}</td></tr></tbody></table></div>
<div class="keep"><table class="list"><thead><tr><th>part</th><th class="n">${cost.currency} each</th><th class="n">${cost.currency} for all</th></tr></thead>
<tbody>${cost.parts.map(
    (p) =>
      html`<tr><td>${own(p.name)}</td><td class="n">${money(p.each)}</td><td class="n">${money(p.all)}</td></tr>`,
  )}</tbody></table>
<p class="small">At the prices set in the job or the shop profile. Plastic, powder and metal are shared by mass, the kiln and consumables by the mould; sprues and reserve come back to the next melt. Each figure is rounded by itself, so sums may differ in the last place.</p></div>`;
}

const wayTitles: Readonly<Record<GrowthWay['way'], string>> = {
  handbook: 'handbook allowance',
  causes: 'composed from its causes',
  log: 'measured, by the pour log',
};

/** Which growth was taken of those there are, and what the composed one consists of; once for each alloy. */
function growthTable({ summary, f }: Context): Html {
  const parts = castingsOf(summary.parts);
  const alloys = [...new Set(parts.map((p) => p.alloy))];
  const rows = alloys.flatMap((alloy) => {
    const of = parts.filter((p) => p.alloy === alloy);
    const g = (of[0] as PartSummary).growth;
    const taken = (way: string): string =>
      of.every((p) => p.growth.way === way)
        ? 'taken'
        : of.some((p) => p.growth.way === way)
          ? 'taken for some'
          : '';
    const set = [...new Set(of.filter((p) => p.growth.way === 'set').map((p) => p.growth.value))];
    const cells = [
      ...g.ways.map(
        (w) => html`<td>${wayTitles[w.way]}</td><td class="n strong">× ${f.growth(w.value)}</td>
<td class="n">${f.growth(w.range[0])} to ${f.growth(w.range[1])}</td><td>${taken(w.way)}</td>`,
      ),
      ...(set.length === 0
        ? []
        : [
            html`<td>set in the job</td><td class="n strong">× ${set.map((v) => f.growth(v)).join(', ')}</td><td class="n">–</td><td>${taken('set')}</td>`,
          ]),
      html`<td colspan="4"><span class="method">causes: ${g.causes
        .map((c) => `${c.name} ${c.effect.usual < 0 ? '' : '+'}${f.percent(c.effect.usual, 2)}`)
        .join('; ')}</span></td>`,
    ];
    const head = html`<th scope="row" rowspan="${String(cells.length)}">${alloyTitle(summary, alloy)}</th>`;
    return cells.map((row, i) => html`<tr>${i === 0 && head}${row}</tr>`);
  });
  return html`<div class="keep"><h3>Growth: pattern size / casting size</h3>
<table class="list"><thead><tr><th>alloy</th><th>way</th><th class="n strong">growth</th><th class="n">it may lie</th><th>used here</th></tr></thead>
<tbody>${rows}</tbody></table></div>`;
}

const quantity = (n: number): string => (Number.isInteger(n) ? String(n) : n.toFixed(3));

/** The first page: what the job makes and what to know before starting. */
export function overview(ctx: Context): Html {
  const { summary: s } = ctx;
  return html`<section class="overview" id="overview">
<header>
<p class="kind">Shop traveller</p>
<h1>${own(s.job.title)}</h1>
<p>Job <b>${own(s.job.name)}</b>${s.shop.title !== undefined && html`, for <b>${own(s.shop.title)}</b>`}. This paper goes with the job through the shop, in the order of the work; tick, write and sign as you go. It is computed advice, not a guarantee: makers’ datasheets, local codes and licensed practice come before it.</p>
</header>
${s.job.notes.length > 0 && html`<ul class="notes">${s.job.notes.map((n) => html`<li>${own(n)}</li>`)}</ul>`}
${notMadeBox(ctx)}
${keyNumbers(ctx)}
${findingsBox(ctx)}
<h3>What this job makes</h3>
${partsMade(ctx)}
${notesBox(ctx)}
${costTable(ctx)}
${growthTable(ctx)}
${basisList(
  castingsOf(s.parts).flatMap((p) => [
    { label: 'growth', where: p.name, basis: p.growth.basis },
    ...p.growth.causes.map((c) => ({ label: c.name, where: p.name, basis: c.basis })),
  ]),
)}
${about(ctx)}
</section>`;
}
