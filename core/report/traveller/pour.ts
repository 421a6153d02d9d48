import type { PouredMould } from '../../foundry/charge/melt-plan.js';
import type { PourPlan } from '../../foundry/plans.js';
import { type Html, html } from '../html.js';
import { basisEntries, basisList } from './basis.js';
import { type Context, mouldOf, own } from './context.js';
import { stepFindings } from './findings.js';
import { bodyRows } from './rows.js';
import { checklist, renderStep } from './step.js';

/** Moulds of one name that follow each other in a heat, and the hottest and coldest metal they get. */
function runs(moulds: readonly PouredMould[]): readonly (readonly PouredMould[])[] {
  const all: PouredMould[][] = [];
  for (const m of moulds) {
    const last = all.at(-1);
    if (last !== undefined && last[0]!.name === m.name && !m.reheated) last.push(m);
    else all.push([m]);
  }
  return all;
}

/** The metal as it cools in the crucible from mould to mould. */
function metalSeen({ summary: s, f }: Context, plan: PourPlan): Html {
  const heats = s.charge.find((c) => c.alloy === plan.alloy)?.melt?.heats ?? [];
  if (heats.every((h) => h.moulds.length < 2)) return html``;
  const rows = heats.flatMap((h, i) =>
    runs(h.moulds).map((run) => {
      const [first, last] = [run[0]!, run.at(-1)!];
      return html`<tr><td class="n">${i + 1}</td><th scope="row" class="part">${own(first.name)}${s.parts.some((p) => p.name === first.name && p.quantity > 1) && html` <span class="times">no. ${run.length > 1 ? `${first.copy} to ${last.copy}` : `${first.copy}`}</span>`}${first.reheated && html`<span class="method">first back into the furnace, to ${f.temperature(first.temperature)}</span>`}</th>
<td class="n strong">${run.length > 1 ? f.temperatureRange([last.temperature, first.temperature]) : f.temperature(first.temperature)}</td>
<td class="n">${f.temperature(Math.max(...run.map((m) => m.lowest)))}</td></tr>`;
    }),
  );
  return html`<table class="list">
<thead><tr><th class="n">heat</th><th>mould</th><th class="n strong">metal it should see</th><th class="n">fills down to</th></tr></thead>
${bodyRows(rows)}</table>`;
}

function alloyPour(ctx: Context, plan: PourPlan): Html {
  const { summary: s, f } = ctx;
  const rows = plan.order.map((name, i) => {
    const p = s.parts.find((x) => x.name === name);
    return html`<tr class="tall"><td class="n"><b>${i + 1}</b></td><th scope="row" class="part">${own(name)}${p !== undefined && p.quantity > 1 && html` <span class="times">× ${p.quantity}</span>`}</th>
<td class="n">${p === undefined ? '–' : f.massDual(p.mass.charge)}</td>
<td class="n strong">${p === undefined ? '–' : f.duration(p.gating.fill.pourTime)}</td>
<td class="n">${p === undefined ? '–' : f.rough(p.gating.sprue.head)}</td>
<td class="blank"></td><td class="blank"></td></tr>`;
  });
  return html`<div class="sizes">
<h3>${plan.title}</h3>
<dl class="keys three">
<div><dt>metal at the pour</dt><dd>${f.temperatureDual(plan.metalTemperature)}</dd><dd class="sub">${f.temperatureRange(plan.metalRange)}</dd></div>
<div><dt>${mouldOf(s)} at the pour</dt><dd>${f.temperatureDual(plan.flaskTemperature)}</dd>${plan.carry && html`<dd class="sub">out of the kiln at ${f.temperature(plan.carry.leaves)}, ${f.duration(plan.carry.seconds)} before</dd>`}<dd class="sub">${f.temperatureRange(plan.flaskRange)}</dd></div>
<div><dt>liquidus</dt><dd>${f.temperatureDual(plan.liquidus)}</dd><dd class="sub">superheat ${f.temperatureStep(plan.metalTemperature - plan.liquidus)}</dd></div>
</dl>
<table class="list">
<thead><tr><th></th><th>pour in this order, thinnest first</th><th class="n">metal, each</th><th class="n strong">pour time</th><th class="n">head over the choke</th><th class="n">metal, ${f.degreeUnit}</th><th class="n">${mouldOf(s)}, ${f.degreeUnit}</th></tr></thead>
${bodyRows(rows)}</table>
${metalSeen(ctx, plan)}
</div>`;
}

/** Which shells must be bedded in sand. */
function standing({ parts }: Context['summary']): string {
  const bedded = parts.filter((p) => p.shell?.stands === 'in dry sand').map((p) => p.name);
  if (bedded.length === 0) return 'Shells stand firm on dry sand, cup up.';
  return bedded.length === parts.length
    ? 'Every shell is bedded to the cup in dry sand, warm if it can be.'
    : `${bedded.join(', ')}: bedded to the cup in dry sand, warm if it can be; the others stand firm on it.`;
}

/** Step 7: temperatures, order, time. */
export const pourStep = (ctx: Context, number: number): Html =>
  renderStep(ctx, {
    number,
    id: 'pour',
    title: 'Pour',
    lead: `Plan it and walk it through cold. Never alone. One steady pour a ${mouldOf(ctx.summary)}: fill the cup at once and keep it full until the vents show metal.`,
    cautions: ['pour'],
    body: html`${stepFindings(ctx.summary.pour.map((p) => ({ where: p.title, findings: p.findings })))}
${checklist([
  ctx.summary.coating === undefined
    ? 'Flasks stand firm in dry sand, cup up, blown out, in the order of pouring; the way from furnace to flask is clear and dry.'
    : `The metal is ready before a shell leaves the kiln: it cools several degrees a second. ${standing(ctx.summary)} Cups covered until the pour, so that nothing falls in; the way is clear and dry.`,
  'Metal skimmed and its temperature measured, not judged by colour.',
  'What is left goes into the dry ingot mould, marked with its alloy.',
])}
${ctx.summary.pour.map((p) => alloyPour(ctx, p))}
${basisList(ctx.summary.pour.flatMap((p) => basisEntries(p.bases, p.title)))}`,
  });
