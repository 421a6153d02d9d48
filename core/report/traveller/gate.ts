import type { GateSize, GatingPlan } from '../../foundry/plans.js';
import type { PartSummary } from '../../job/summary.js';
import { hasStop } from '../../part/finding.js';
import { decimals, type Format } from '../format.js';
import { type Html, html } from '../html.js';
import { basisEntries, basisList } from './basis.js';
import { type Context, own, partHead } from './context.js';
import { stepFindings } from './findings.js';
import { bodyRows } from './rows.js';
import { checklist, renderStep } from './step.js';

/** `2 × 2.50, 1 × 3.00`: vents by diameter, in the order they first come. */
export function ventSizes(vents: GatingPlan['vents'], f: Format): string {
  const sizes = vents.map((v) => f.lengthNumber(v.diameter));
  if (sizes.length === 0) return 'none';
  return [...new Set(sizes)].map((s) => `${sizes.filter((x) => x === s).length} × ${s}`).join(', ');
}

/** Where metal enters, each place once; patterns of a tree have the same. */
export const gateNames = (gates: readonly GateSize[]): string =>
  [...new Set(gates.map((g) => g.name))].join('; ');

/** `9.40 – 15.20`, or `3 × 5.49` over its runner: each size once. */
function gateSizes(gates: readonly GateSize[], f: Format): Html {
  const keys = gates.map((g) => gateKey(g, f));
  return html`${[...new Set(keys)].map((key, i) => {
    const { runner } = gates[keys.indexOf(key)]!;
    const count = keys.filter((k) => k === key).length;
    return html`${i > 0 && !runner && html`<br/>`}${count > 1 && `${count} × `}${key.split('\n')[0]}${
      runner && html`<span class="method">runner ${f.lengthNumber(runner.diameter)}</span>`
    }`;
  })}`;
}

/** What tells gates apart: the ring and, after a line break, the runner. */
const gateKey = ({ innerDiameter, outerDiameter, runner }: GateSize, f: Format): string =>
  `${innerDiameter > 0 ? `${f.lengthNumber(innerDiameter)} – ` : ''}${f.lengthNumber(outerDiameter)}\n${runner ? f.lengthNumber(runner.diameter) : ''}`;

/** A plan refused with a `stop` has no sizes: zeros would read like ones. */
const isRefused = (p: PartSummary): boolean => hasStop(p.gating.findings);
const refusedRow = (p: PartSummary, columns: number): Html =>
  html`<tr>${partHead(p)}<td colspan="${columns}">no gating could be planned: see the findings</td></tr>`;

const sizesRow = (p: PartSummary, f: Format): Html => {
  if (isRefused(p)) return refusedRow(p, 7);
  const { gates, sprue, cup, vents } = p.gating;
  return html`<tr>${partHead(p)}
<td>${gateNames(gates)}${gates.some((g) => g.coversCore) && html`<span class="method">cone closes the bore’s mouth</span>`}</td>
<td class="n">${gateSizes(gates, f)}</td>
<td class="n">${f.lengthNumber(sprue.bottomDiameter)}<span class="method">${gates[0]?.runner && 'runners: '}${sprue.governedBy}</span></td>
<td class="n">${f.lengthNumber(sprue.topDiameter)}</td>
<td class="n">${f.roughNumber(sprue.length)}</td>
<td class="n">${f.roughNumber(cup.topDiameter)} × ${f.roughNumber(cup.depth)}</td>
<td class="n">${ventSizes(vents, f)}</td></tr>`;
};

/** Sizes are solved to meet their limits exactly: rounding noise is no breach. */
const within = (less: number, more: number): boolean => less <= more * (1 + 1e-6);

const limit = (value: string, bound: string, ok: boolean, fault: string): Html =>
  html`<td class="n">${value}<span class="method">${bound}${!ok && `, ${fault}`}</span></td>`;

const checksRow = (p: PartSummary, f: Format): Html => {
  if (isRefused(p)) return refusedRow(p, 6);
  const { entry, fill } = p.gating;
  return html`<tr>${partHead(p)}
<td class="n">${f.duration(fill.pourTime)}</td>
${limit(f.speed(entry.velocity), `at most ${f.speed(entry.velocityLimit)}`, within(entry.velocity, entry.velocityLimit), 'over')}
${limit(decimals(fill.modulusRatio, 2), `at least ${decimals(fill.modulusRatioLimit, 2)}`, within(fill.modulusRatioLimit, fill.modulusRatio), 'short')}
${limit(f.volume(fill.feedSupply), `asked for ${f.volume(fill.feedDemand)}`, within(fill.feedDemand, fill.feedSupply), 'short')}
${
  fill.reach === undefined
    ? html`<td class="n">near</td>`
    : limit(
        f.rough(fill.reach),
        `at most ${f.rough(fill.reachLimit)}`,
        within(fill.reach, fill.reachLimit),
        'far',
      )
}
${limit(f.area(fill.ventArea), `at least ${f.area(fill.ventAreaLimit)}`, within(fill.ventAreaLimit, fill.ventArea), 'short')}
</tr>`;
};

/** What metal rising in the mould does with the air; nothing where no part was looked at. */
const airRow = (p: PartSummary, f: Format): Html => {
  const { air } = p;
  if (air === undefined) return html``;
  const sum = (pockets: typeof air.pockets): string =>
    pockets.length === 0
      ? 'none'
      : `${pockets.length}, ${f.volume(pockets.reduce((v, k) => v + k.volume, 0))}`;
  const out = air.outflow;
  return html`<tr>${partHead(p)}
<td class="n">${sum(air.pockets)}</td>
<td class="n">${air.ventsAdded.length === 0 ? 'none' : String(air.ventsAdded.length)}</td>
<td class="n">${sum(air.left)}</td>
<td class="n">${air.offLevel.left.volume === 0 ? 'none' : f.volume(air.offLevel.left.volume)}</td>
<td class="n">${out ? f.speed(out.velocityMmPerSecond) : 'no vents'}${out && html`<span class="method">${decimals((100 * out.pressurePa) / out.metalPressurePa, 1)} % of the metal’s pressure</span>`}</td></tr>`;
};

/** `2°`: how far off level was looked at. */
const leanText = ([first]: readonly { readonly air: NonNullable<PartSummary['air']> }[]): string =>
  `${decimals(((first?.air.offLevel.angle ?? 0) * 180) / Math.PI, 0)}°`;

/** Where air would be caught, and how fast it leaves: a table only where some part has such a place. */
function airTable(parts: readonly PartSummary[], f: Format): Html {
  const looked = parts.flatMap((p) => (p.air === undefined ? [] : [{ part: p, air: p.air }]));
  if (looked.length === 0) return html``;
  const clean = looked.every(
    ({ air }) =>
      air.pockets.length + air.ventsAdded.length + air.left.length + air.offLevel.left.places === 0,
  );
  if (!clean)
    return html`<table class="list by-part">
<caption>Air that the rising metal would trap</caption>
<thead><tr><th>pattern</th><th class="n">places with the part’s own vents</th><th class="n">vents added</th><th class="n">places left</th><th class="n">kept ${leanText(looked)} off level</th><th class="n">air in the vents</th></tr></thead>
${bodyRows(parts.map((p) => airRow(p, f)))}</table>`;
  const share = (air: (typeof looked)[number]['air']): number =>
    air.outflow ? air.outflow.pressurePa / air.outflow.metalPressurePa : 0;
  const worst = looked.reduce((a, b) => (share(b.air) > share(a.air) ? b : a));
  const out = worst.air.outflow;
  return html`<p><b>Air:</b> the rising metal traps none in ${looked.length === 1 ? 'this pattern' : `any of these ${looked.length} patterns`}, poured level or ${leanText(looked)} off.${
    out &&
    html` It leaves through the vents ${looked.length > 1 && html`fastest in ${own(worst.part.name)}, `}at ${f.speed(out.velocityMmPerSecond)}, held back by ${decimals((100 * out.pressurePa) / out.metalPressurePa, 1)} % of the metal’s pressure.`
  }</p>`;
}

/** Step 3: the gating printed in one piece with the pattern. */
export function gateStep(ctx: Context, number: number): Html {
  const { summary: s, f } = ctx;
  const u = f.lengthUnit;
  return renderStep(ctx, {
    number,
    id: 'gate',
    title: 'Gate and vents',
    lead: `Sprue, pour cup and vents are already in one piece with each pattern. Look them over, ${s.coating ? 'fix a rod or hook in the cup to dip it by' : 'stand the pattern in its flask'}, and know where the saw will go.`,
    cautions: [],
    body: html`${checklist([
      s.coating
        ? 'Cup and vents end at one level; the shell is ground off there before the fire.'
        : 'Cup and vents end at one level, flush with the open end of the flask: cup down on the base plate of a tube, cup up in a can.',
      'Nothing rests on the vents; they clear the working surfaces.',
    ])}
${stepFindings(s.parts.map((p) => ({ where: p.name, findings: p.gating.findings })))}
<table class="list by-part gating">
<caption>Sizes on the pattern, ${u}</caption>
<thead><tr><th>pattern</th><th>gate: metal enters, saw here</th><th class="n">gate ø</th><th class="n">sprue ø at the foot, set by</th><th class="n">sprue ø at the top</th><th class="n">sprue length</th><th class="n">cup ø × depth</th><th class="n">vents, number × ø</th></tr></thead>
${bodyRows(s.parts.map((p) => sizesRow(p, f)))}</table>
<table class="list by-part">
<caption>How it should fill and feed</caption>
<thead><tr><th>pattern</th><th class="n">pour time</th><th class="n">velocity in the gate</th><th class="n">modulus, sprue or runner ÷ casting</th><th class="n">feed metal in sprue and cup</th><th class="n">farthest it feeds</th><th class="n">vent area</th></tr></thead>
${bodyRows(s.parts.map((p) => checksRow(p, f)))}</table>
${airTable(s.parts, f)}
${basisList(s.parts.flatMap((p) => basisEntries({ ...p.gating.bases, ...p.air?.bases }, p.name)))}`,
  });
}
