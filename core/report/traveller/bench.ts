import type { ChargePlan, PourPlan } from '../../foundry/plans.js';
import { usualScaleStep } from '../../foundry/scale.js';
import { isInFlask, isInShell, type PartSummary } from '../../job/summary.js';
import { formatNumber } from '../../units/index.js';
import { type Html, html } from '../html.js';
import { dipTime } from './coats.js';
import { alloyTitle, type Context, capital, mouldTimes, own, plural } from './context.js';
import { metalsOnBench } from './metal-mix.js';
import { backAgain, type PourRun, pourRuns, runName } from './pour-runs.js';

const by = (p: PartSummary): Html => html`${own(p.name)} <span class="times">${mouldTimes(p)}</span>`;

const sheet = (title: string, lead: string, body: Html): Html =>
  html`<section class="bench"><h2>${title}</h2><p>${lead}</p>${body}</section>`;

const coat = ({ summary: { parts, coating: v }, f }: Context): Html =>
  v
    ? sheet(
        'Coat',
        `${v.title}. ${f.duration(v.total)} in all. Each coat dry before the next; respirator on.`,
        html`<table><thead><tr><th class="n">coat</th><td></td><th>dip</th><th class="n">dries for</th></tr></thead>
<tbody>${v.coats.map(
          (c) =>
            html`<tr><td class="n">${c.number}</td><th scope="row">${c.name}</th><td>${dipTime(c.at, f)}</td><td class="n">${f.duration(c.dry)}</td></tr>`,
        )}</tbody></table>
<table><thead><tr><th>pattern</th><th class="n">coats</th><th class="n">slurry</th><th class="n">stucco</th></tr></thead>
<tbody>${parts
          .filter(isInShell)
          .map(
            (p) =>
              html`<tr><th scope="row">${by(p)}</th><td class="n">${p.shell.coats}</td><td class="n">${f.mass(p.shell.slurry)}</td><td class="n">${f.mass(p.shell.stucco)}</td></tr>`,
          )}</tbody></table>`,
      )
    : html``;

const mix = ({ summary: { parts, investment: v }, f }: Context): Html =>
  v === undefined
    ? html``
    : sheet(
        'Mix',
        `${v.title}, ${formatNumber(v.waterRatio * 100, { digits: 1 })} water : 100 powder. ${f.duration(v.workingTime)} from first contact. ${plural(v.mixes, 'mix', 'mixes')}.`,
        html`<table><thead><tr><th>pattern</th><th>flask</th><th class="n">powder</th><th class="n">water</th></tr></thead>
<tbody>${parts
          .filter(isInFlask)
          .map(
            (p) =>
              html`<tr><th scope="row">${by(p)}</th><td class="flask">${p.flask.name}</td><td class="n">${f.weighed(p.flask.weigh.powder, p.flask.weigh.step)}</td><td class="n">${f.weighed(p.flask.weigh.water, p.flask.weigh.step)}</td></tr>`,
          )}</tbody></table>`,
      );

const burnOut = ({ summary: { burnout: b }, f }: Context): Html =>
  sheet(
    'Burn out',
    `${f.duration(b.total)} in all. Air in, fumes out. White cups before you pour.${b.shellThickness !== undefined && b.firing === 'flash' ? ' The shells go in at segment 2.' : ''}`,
    html`<table><thead><tr><td class="n"></td><th class="n">to, ${f.degreeUnit}</th><th class="n">${f.degreeUnit}/h</th><th class="n">ramp, h:min</th><th class="n">soak, h:min</th></tr></thead>
<tbody>${b.segments.map(
      (s, i) =>
        html`<tr><td class="n">${i + 1}</td><th class="n" scope="row">${f.temperatureNumber(s.to)}</th><td class="n">${s.ramp > 0 ? f.rateNumber(s.rate) : '–'}</td><td class="n">${s.ramp > 0 ? f.clock(s.ramp) : '–'}</td><td class="n">${s.soak > 0 ? f.clock(s.soak) : '–'}</td></tr>`,
    )}</tbody></table>`,
  );

const pour = ({ summary, f }: Context, plan: PourPlan): Html => {
  const charge = summary.charge.find((c) => c.alloy === plan.alloy);
  const { heats = [], scaleStep: step = usualScaleStep } = charge?.melt ?? {};
  const runs = pourRuns(summary, plan);
  const weighed =
    heats.length > 1
      ? heats.map((h, i) => html`<br/>heat ${i + 1}: weigh out ${f.weighedDual(h.charge, step)}`)
      : charge !== undefined && html`<br/>weigh out ${f.weighedDual(charge.charge, step)}`;
  const row = (run: PourRun, i: number): Html => {
    const [p, before] = [run.part, runs[i - 1]];
    const turn =
      heats.length > 1 && run.heat !== before?.heat
        ? `heat ${(run.heat ?? 0) + 1}`
        : backAgain(run, f.temperature);
    return html`${turn && html`<tr class="turn"><td></td><td colspan="3">${turn}</td></tr>`}<tr><td class="n">${i + 1}</td><th scope="row">${runName(run)}</th><td class="n">${p === undefined ? '–' : f.mass(p.mass.charge)}</td><td class="n">${p === undefined ? '–' : f.duration(p.gating.fill.pourTime)}</td></tr>`;
  };
  return sheet(
    `Pour: ${capital(alloyTitle(summary, plan.alloy))}`,
    'Dry mould, dry tools, face shield, never alone. Makers’ datasheets come first.',
    html`<p class="big">metal ${f.temperatureDual(plan.metalTemperature)}<br/>${plan.carry ? html`shell leaves the kiln at ${f.temperatureDual(plan.carry.leaves)}` : html`flask ${f.temperatureDual(plan.flaskTemperature)}`}${weighed}</p>
<table><thead><tr><td class="n"></td><th>in this order</th><th class="n">metal, each</th><th class="n">pour time</th></tr></thead>
<tbody>${runs.map(row)}</tbody></table>`,
  );
};

/** The metals of the shelf, alloy by alloy; nothing where the shop lists none. */
const weigh = ({ f }: Context, { title, melt }: ChargePlan): Html =>
  melt?.mix?.ok
    ? sheet(
        `Weigh: ${capital(title)}`,
        'Clean, bone dry and warm, every piece. What burns off goes in last.',
        metalsOnBench(f, melt.mix, melt.scaleStep),
      )
    : html``;

/**
 * The bench copy: what is looked at with both hands full, on sheets of their own. Letters are 5 mm high at least, which
 * is read without effort from a metre (a two-hundredth of the distance; common practice, no source).
 */
export const benchCopy = (ctx: Context): Html =>
  html`<div class="bench-copy" id="bench">${coat(ctx)}${mix(ctx)}${burnOut(ctx)}${ctx.summary.charge.map((c) => weigh(ctx, c))}${ctx.summary.pour.map((plan) => pour(ctx, plan))}</div>`;
