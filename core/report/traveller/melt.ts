import type { ChargePlan } from '../../foundry/plans.js';
import { decimals } from '../format.js';
import { type Html, html } from '../html.js';
import { basisEntries, basisList } from './basis.js';
import { type Context, mouldTimes, own, plural, sum } from './context.js';
import { metalMix } from './metal-mix.js';
import { bodyRows } from './rows.js';
import { checklist, renderStep } from './step.js';

/** The crucible of an alloy, and what goes into it heat by heat. */
function heatTable({ f }: Context, c: ChargePlan): Html {
  const { melt } = c;
  if (melt === undefined) return html``;
  const { crucible, heats } = melt;
  const rows = heats.map(
    (
      h,
      i,
    ) => html`<tr class="tall"><th scope="row">Heat ${i + 1}<span class="method">fills ${h.castings.map((k, n) => html`${n > 0 && ', '}${own(k.name)}${k.quantity > 1 && ` × ${k.quantity}`}`)}</span></th>
<td class="n strong">${f.weighedDual(h.charge, melt.scaleStep)}</td><td class="n">${f.energy(h.drawn)}</td>
<td class="n">${h.time === undefined ? '–' : f.duration(h.time)}</td><td class="n strong">${f.temperature(h.leaves)}</td><td class="blank"></td></tr>`,
  );
  return html`<div class="sizes${heats.length <= 3 && ' keep'}">
<h3>${c.title}: ${plural(heats.length, 'heat')}</h3>
<p class="small">${crucible.owned ? crucible.title : html`No crucible of the shop’s is named. ${crucible.title} would do`}: it holds ${f.massDual(crucible.capacity)} of it with room to skim and lift. Never fill a mould from two heats.</p>
<table class="list">
<thead><tr><th>heat</th><th class="n strong">weigh out</th><th class="n">furnace draws</th><th class="n">time at full power</th><th class="n strong">leaves the furnace at</th><th class="n">weighed</th></tr></thead>
${bodyRows(rows)}</table>
</div>`;
}

/** Each gated pattern's weight, and what it should multiply to: the bench's own check of the charge. */
function weighing({ summary: s, f }: Context): Html {
  const checks = s.charge.flatMap((c) => c.melt?.bench ?? []);
  if (checks.length === 0) return html``;
  const rows = checks.map(
    (b) => html`<tr><th scope="row" class="part">${own(b.name)}</th><td class="n">${f.mass(b.pattern)}</td>
<td class="n strong">× ${decimals(b.ratio, 2)}</td><td class="n">${f.mass(b.metal)}</td><td class="blank"></td><td class="blank"></td></tr>`,
  );
  return html`<div class="sizes"><h3>Check it with the scale</h3>
<p class="small">Weigh one gated pattern and multiply: the metal its mould takes. For solid prints only; sparse infill weighs less than its volume and the product comes out short. Where they differ by more than a tenth, find out why before melting.</p>
<table class="list by-part">
<thead><tr><th>pattern</th><th class="n">printed solid</th><th class="n strong">multiply by</th><th class="n">metal in its mould</th><th class="n">pattern weighed</th><th class="n">product</th></tr></thead>
${bodyRows(rows)}</table></div>`;
}

/** Step 6: the charge of each alloy. */
export function meltStep(ctx: Context, number: number): Html {
  const { summary: s, f } = ctx;
  const fills = (alloy: string): Html =>
    html`${s.parts
      .filter((p) => p.alloy === alloy)
      .map((p, i) => html`${i > 0 && ', '}${own(p.name)} ${mouldTimes(p)}`)}`;
  return renderStep(ctx, {
    number,
    id: 'melt',
    title: 'Melt',
    lead: 'Weigh out each charge and write down what went in. Sprues and cups of the same clean alloy may be part of it.',
    cautions: ['melt'],
    body: html`${checklist([
      'Charge, ladle, skimmer, tongs and ingot mould are dry and preheated.',
      'A dry ingot mould stands ready for what is left over.',
      'Crucible sound, rated for this charge, and used for this alloy only.',
    ])}
<table class="list">
<thead><tr><th>alloy</th><th class="n">in the moulds</th><th class="n">melt loss</th><th class="n">reserve</th><th class="n strong">charge to weigh out</th><th class="n">least energy</th><th class="n">weighed</th></tr></thead>
<tbody>${s.charge.map(
      (
        c,
      ) => html`<tr class="tall"><th scope="row">${c.title}${c.melt === undefined && html`<span class="method">fills ${fills(c.alloy)}</span>`}</th>
<td class="n">${f.mass(c.inMoulds)}</td><td class="n">${f.percent(c.meltLoss)}</td><td class="n">${f.mass(c.reserve)}</td>
<td class="n strong">${c.melt === undefined ? f.massDual(c.charge) : f.weighedDual(sum(c.melt.heats.map((h) => h.charge)), c.melt.scaleStep)}</td><td class="n">${f.energy(c.energy)}</td><td class="blank"></td></tr>`,
    )}</tbody></table>
<p class="small">Energy is what the metal itself takes to melt and superheat; a furnace uses several times as much.</p>
${s.charge.map((c) => html`${heatTable(ctx, c)}${metalMix(ctx, c)}`)}
${weighing(ctx)}
${basisList(s.charge.flatMap((c) => basisEntries({ ...c.bases, ...c.melt?.bases, ...(c.melt?.mix?.ok ? c.melt.mix.bases : {}) }, c.title)))}`,
  });
}
