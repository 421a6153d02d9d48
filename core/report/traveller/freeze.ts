import type { FreezePlan } from '../../freeze/plans.js';
import type { PartSummary } from '../../job/summary.js';
import type { Vec3 } from '../../solid/types.js';
import { decimals, type Format } from '../format.js';
import { levelChart } from '../freeze/level-chart.js';
import { leastVoid, letteredThin, numberedLate } from '../freeze/places.js';
import { type Html, html } from '../html.js';
import { basisEntries, basisList } from './basis.js';
import { type Context, mouldOf, own, plural } from './context.js';
import { bodyRows } from './rows.js';

interface Frozen {
  readonly part: PartSummary;
  readonly plan: FreezePlan;
}

/** Time over time: two figures, but whole where it is much. */
const ratio = (n: number): string => (n >= 9.95 ? decimals(n, 0) : decimals(n, 1));

/** In the pattern's own coordinates. */
const placeOf = (at: Vec3, f: Format): string => at.map(f.roughNumber).join(', ');

/** K/mm in the reader's degrees and lengths. */
function gradient(kelvinPerMm: number, { view, degreeUnit, lengthUnit }: Format): string {
  const value = kelvinPerMm * (view.degrees === 'F' ? 1.8 : 1) * (view.lengthUnit === 'in' ? 25.4 : 1);
  return `${decimals(value, value < 9.95 ? 1 : 0)} ${degreeUnit}/${lengthUnit}`;
}

/** Less cavity than this is crumbs of cells, mm³. */
const crumb = 20;

/** Told in bold where it is not as it should be. */
const told = (bad: boolean, text: string): Html => (bad ? html`<b>${text}</b>` : html`${text}`);

function keyNumbers({ plan }: Frozen, f: Format, mould: 'flask' | 'shell'): Html {
  const { fill, feed, solid, quench, facePeak, niyama, move } = plan;
  const voids = plan.latePlaces.reduce((sum, p) => sum + p.void, 0);
  const fact = (label: string, value: string, more: Html): Html =>
    html`<div><dt>${label}</dt><dd>${value}</dd><dd class="sub">${more}</dd></div>`;
  const never = fill.unreached >= crumb ? `; ${f.smallVolume(fill.unreached)} never` : '';
  return html`<dl class="keys freeze-keys">
${fact('castings full after', f.duration(fill.castings), told(never !== '', `cup full after ${f.duration(fill.total)}${never}`))}
${fact(
  'misrun margin, least',
  `× ${ratio(fill.margin)}`,
  fill.margin < fill.marginLimit
    ? told(true, `under the × ${ratio(fill.marginLimit)} it should have`)
    : html`time to freeze ÷ time to fill; at least × ${ratio(fill.marginLimit)}`,
)}
${fact('voids it may leave', voids > 0 ? f.smallVolume(voids) : 'none seen', told(voids >= leastVoid, voidPlaces(plan)))}
${fact(
  'feed metal wanted',
  f.smallVolume(feed.demand),
  told(
    feed.demand > feed.supply,
    `cup and sprue can give ${feed.demand > feed.supply ? 'only ' : ''}${f.smallVolume(feed.supply)}`,
  ),
)}
${fact('castings solid after', f.duration(solid.castings), html`all metal after ${f.duration(solid.all)}`)}
${fact(
  'move it not before',
  f.duration(move),
  html`${
    mould === 'shell'
      ? 'a shell is not quenched'
      : `quench not before ${f.duration(quench.at)}, all under ${f.temperature(quench.temperature)}`
  }`,
)}
${fact(
  `${mould === 'shell' ? 'shell' : 'mould'}’s face, hottest`,
  f.temperature(facePeak.temperature),
  told(
    facePeak.temperature > facePeak.limit,
    `${facePeak.temperature > facePeak.limit ? 'over its limit of' : 'at most'} ${f.temperature(facePeak.limit)}`,
  ),
)}
${fact('under Niyama’s limit', f.percent(niyama.below, 0), html`of the castings: ranks gatings, no more`)}
</dl>`;
}

const voidPlaces = (plan: FreezePlan): string => {
  const count = plan.latePlaces.filter((p) => p.void >= leastVoid).length;
  return count === 0
    ? 'nowhere enough to be seen'
    : `in ${plural(count, 'place')} that freeze${count === 1 ? 's' : ''} cut off`;
};

/** What the marks in the pictures are. */
function placesTable({ plan }: Frozen, f: Format): Html {
  const late = numberedLate(plan);
  const thin = letteredThin(plan);
  const u = f.lengthUnit;
  if (late.length + thin.length === 0)
    return html`<p class="none">No place of the castings freezes so cut off that a void could be seen, and none falls under the margin it should have.</p>`;
  const left = (all: number, shown: number): Html | false =>
    all > shown && html`<p class="small">${plural(all - shown, 'lesser place')} not shown.</p>`;
  return html`${
    late.length > 0 &&
    html`<table class="list close"><thead><tr><td></td><th>freezes last: place x, y, z, ${u}</th><th class="n">solid after</th><th class="n">way to the gating shuts</th><th class="n">cut off, liquid</th><th class="n strong">void it may leave</th><th class="n">least gradient on the way</th></tr></thead>
${bodyRows(
  late.map(
    ({ mark, place }) =>
      html`<tr><td class="mark"><span class="ring">${mark}</span></td><td>${placeOf(place.at, f)}</td><td class="n">${f.duration(place.solidAt)}</td><td class="n">${place.shutAt >= place.solidAt ? 'fed to the end' : place.shutAt > 0 ? f.duration(place.shutAt) : 'never open'}</td><td class="n">${f.smallVolume(place.cutOff)}</td><td class="n strong">${f.smallVolume(place.void)}</td><td class="n">${gradient(place.leastGradient, f)}</td></tr>`,
  ),
  3,
)}</table>${left(plan.latePlaces.length, late.length)}`
  }${
    thin.length > 0 &&
    html`<table class="list close"><thead><tr><td></td><th>may not fill: place x, y, z, ${u}</th><th class="n strong">margin</th><th class="n">thickness, about</th><th class="n">volume</th></tr></thead>
${bodyRows(
  thin.map(
    ({ mark, place }) =>
      html`<tr><td class="mark"><span class="square">${mark}</span></td><td>${placeOf(place.at, f)}</td><td class="n strong">× ${ratio(place.margin)}</td><td class="n">${f.rough(place.thickness)}</td><td class="n">${f.smallVolume(place.volume)}</td></tr>`,
  ),
  3,
)}</table>${left(plan.fill.thinPlaces.length, thin.length)}`
  }`;
}

function pictures(ctx: Context, { part, plan }: Frozen): Html {
  const section = ctx.picture('freezeSection', part.name);
  const surface = ctx.picture('freezeSurface', part.name);
  return html`${
    section &&
    surface &&
    html`<div class="freeze-pair">
<figure><img src="${section}" alt="Section through the mould of ${part.name}, coloured by when the metal is solid"/><figcaption><b>Will it feed?</b> Cut through the mould. Good: solid first far from the sprue, last in it. Dashes: where the saw goes.</figcaption></figure>
<figure><img src="${surface}" alt="The gated pattern of ${part.name}, coloured by how cold the metal arrives"/><figcaption><b>Will it fill?</b> Seen from outside. Good: light all over; vents grey.</figcaption>${levelChart(plan.fill, ctx.f)}</figure>
</div>`
  }`;
}

function ofPart(ctx: Context, frozen: Frozen): Html {
  const { part, plan } = frozen;
  const { f } = ctx;
  const { start, edgeRadius } = plan;
  return html`<div class="freeze-part">
<h3>${own(part.name)} <span class="light">${own(part.title)}</span></h3>
${keyNumbers(frozen, f, mouldOf(ctx.summary))}
${pictures(ctx, frozen)}
${placesTable(frozen, f)}
<p class="small">Poured at ${f.temperature(start.metal)} into a ${mouldOf(ctx.summary)} at ${f.temperature(start.mould)}, ${f.duration(start.delay)} after the kiln. Sharp edges come out rounded, r ${f.length(edgeRadius.lowest)} at the bottom to ${f.length(edgeRadius.highest)} at the top: surface tension against the head. ${plan.level === 'fine' ? 'Fine' : 'Coarse'}: ${plan.cells.toLocaleString('en')} cells of ${f.length(plan.cell)}, ${plan.steps} steps, heat in and out alike within ${decimals(Math.max(plan.imbalance * 100, 0.001), 3)} %.</p>
</div>`;
}

/** What the calculation of filling and freezing says of each part, before anything is printed; nothing where there is none. */
export function freezeSection(ctx: Context): Html {
  const frozen = ctx.summary.parts.flatMap((part) => (part.freeze ? [{ part, plan: part.freeze }] : []));
  if (frozen.length === 0) return html``;
  return html`<section class="freeze" id="freeze">
<header><h2>Will it fill, will it feed</h2>
<p>Each mould was filled and frozen by calculation. It is a calculation, not a promise: it knows the shape, the temperatures and the tables’ metals, not your metal’s gas, dross or a slow hand. A part that carries load, lifts or keeps people safe is proved by a trial pour, sawn through and looked at, and by a competent person.</p></header>
${frozen.map((x) => ofPart(ctx, x))}
${basisList(frozen.flatMap(({ part, plan }) => basisEntries(plan.bases, part.name)))}
</section>`;
}
