import type { PourPlan } from '../../foundry/plans.js';
import { type Html, html } from '../html.js';
import { basisEntries, basisList } from './basis.js';
import { type Context, mouldOf } from './context.js';
import { stepFindings } from './findings.js';
import { backAgain, pourRuns, runName } from './pour-runs.js';
import { bodyRows } from './rows.js';
import { checklist, renderStep } from './step.js';

function alloyPour(ctx: Context, plan: PourPlan): Html {
  const { summary: s, f } = ctx;
  const runs = pourRuns(s, plan);
  const heats = new Set(runs.map((r) => r.heat)).size > 1;
  const planned = runs.some((r) => r.metal !== undefined);
  const rows = runs.map((run, i) => {
    const p = run.part;
    const again = backAgain(run, f.temperature);
    return html`<tr class="tall">${heats && html`<td class="n">${(run.heat ?? 0) + 1}</td>`}<td class="n"><b>${i + 1}</b></td><th scope="row" class="part">${runName(run)}${
      again && html`<span class="method">first ${again}</span>`
    }</th>
<td class="n">${p === undefined ? '–' : f.massDual(p.mass.charge)}</td>
<td class="n strong">${p === undefined ? '–' : f.duration(p.gating.fill.pourTime)}</td>
${
  planned &&
  html`<td class="n see">${run.metal === undefined ? '–' : run.copies[0] === run.copies[1] ? f.temperature(run.metal[1]) : f.temperatureRange(run.metal)}<span class="method">fills down to ${f.temperature(run.lowest ?? Number.NaN)}</span></td>`
}
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
<thead><tr>${heats && html`<th class="n">heat</th>`}<td></td><th>pour in this order, thinnest first${heats && ' in each heat'}</th><th class="n">metal, each</th><th class="n strong">pour time</th>${planned && html`<th class="n">metal it should see</th>`}<th class="n">metal, ${f.degreeUnit}</th><th class="n">${mouldOf(s)}, ${f.degreeUnit}</th></tr></thead>
${bodyRows(rows)}</table>
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
