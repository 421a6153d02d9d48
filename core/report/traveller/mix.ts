import type { FlaskPlan, MixingStep } from '../../foundry/plans.js';
import { isInFlask, type PartSummary } from '../../job/summary.js';
import { maths } from '../../maths/maths.js';
import { formatNumber, gramsPer, millimetresPerInch } from '../../units/index.js';
import { decimals } from '../format.js';
import { type Html, html } from '../html.js';
import { basisEntries, basisList } from './basis.js';
import { type Context, capital, moulds, partHead } from './context.js';
import { stepFindings } from './findings.js';
import { bodyRows } from './rows.js';
import { checklist, renderStep } from './step.js';

type Invested = PartSummary & { readonly flask: FlaskPlan };

const flaskRow = ({ f }: Context, p: Invested): Html => {
  const k = p.flask;
  return html`<tr class="tall">${partHead(p)}
<td>${k.name}<span class="method">ø ${f.roughNumber(k.insideDiameter)} × ${f.rough(k.insideHeight)} inside; clear at wall ${f.roughNumber(k.clearance.wall)}, floor ${f.roughNumber(k.clearance.floor)}, cover ${f.roughNumber(k.clearance.cover)}${p.flaskAxis && '; its sprue in the middle'}</span></td>
<td class="n">${f.volume(k.slurryVolume)}</td>
<td class="n strong">${f.weighed(k.weigh.powder, k.weigh.step)}</td><td class="n strong">${f.weighed(k.weigh.water, k.weigh.step)}</td>
<td class="blank"></td><td class="blank"></td></tr>`;
};

const loadRow = ({ f }: Context, p: Invested): Html => {
  const { mass, lift } = p.flask.loads;
  return html`<tr>${partHead(p)}<td class="n">${f.mass(mass.wet)}</td><td class="n">${f.mass(mass.fired)}</td>
<td class="n">${f.mass(mass.poured)}</td><td class="n strong">${f.mass(lift.solid)}</td><td class="n">${f.mass(lift.hollow)}</td></tr>`;
};

/** The clock of one mix, minutes and seconds from first contact. */
const clockRow =
  (f: Context['f']) =>
  ({ purpose, from, to }: MixingStep): Html =>
    html`<tr class="tall"><td class="n"><b>${f.duration(from)}</b></td><td class="n">${f.duration(to)}</td><th scope="row">${capital(purpose)}</th><td class="blank"></td></tr>`;

/** Step 4: investment for each flask. */
export function mixStep(ctx: Context, number: number): Html {
  const { summary: s, f } = ctx;
  const v = s.investment;
  if (!v) return html``;
  const parts = s.parts.filter(isInFlask);
  return renderStep(ctx, {
    number,
    id: 'mix',
    title: 'Weigh and mix the investment',
    lead: `${v.title}: ${formatNumber(v.waterRatio * 100, { digits: 1 })} parts of water to 100 of powder, by weight. Working time ${f.duration(v.workingTime)} from first contact with water.`,
    cautions: ['mix'],
    body: html`${stepFindings(parts.map((p) => ({ where: p.name, findings: p.flask.findings })))}
${checklist([
  'Flasks, bases, bowl, scale, clock and vacuum or vibrator are ready before powder meets water.',
  ...(parts.some((p) => p.flaskAxis)
    ? [
        'A tree stands with its sprue in the middle of the flask, where the table says so: that way it clears the wall.',
      ]
    : []),
  'Weigh powder and water; water is weighed, not poured by eye. Add powder to water.',
  `Mix, remove the air, fill down the flask’s side and remove the air again, all inside ${f.duration(v.workingTime)}.`,
  'The pattern is held down: wax on the base plate or a weight on it, against the lift told below.',
  'Leave undisturbed until hard; then clean the cup’s and vents’ ends so that plastic shows.',
])}
<table class="list by-part">
<thead><tr><th>pattern</th><th>flask</th><th class="n">slurry</th><th class="n strong">powder, a flask</th><th class="n strong">water, a flask</th><th class="n">powder weighed</th><th class="n">water weighed</th></tr></thead>
${bodyRows(parts.map((p) => flaskRow(ctx, p)))}
<tbody><tr class="total"><td colspan="3">${moulds(s.parts) === 1 ? 'The flask' : `All ${moulds(s.parts)} flasks`}</td><td class="n strong">${f.weighed(v.weigh.powder, v.weigh.step)}</td><td class="n strong">${f.weighed(v.weigh.water, v.weigh.step)}</td><td colspan="2"></td></tr></tbody>
</table>
<p class="small">Powder and water hold ${f.percent(v.wasteFraction, 1)} for waste. In all: powder ${f.weighedDual(v.weigh.powder, v.weigh.step)}, water ${f.weighedDual(v.weigh.water, v.weigh.step)}. Slurry weighs ${f.view.lengthUnit === 'mm' ? `${decimals(v.slurryDensity * 1000, 2)} g/cm³` : `${decimals((v.slurryDensity * maths.pow(millimetresPerInch, 3)) / gramsPer.oz, 3)} oz/in³`}.</p>
<p class="small">${decimals(v.bags, 2)} bags of ${f.massDual(v.bag)}. ${
      v.mixes === 1 ? 'One mix fills them all' : `${v.mixes} mixes fill them, one after another`
    } within the working time.</p>
<div class="keep"><h3>The clock of ${v.mixes === 1 ? 'the mix' : 'each mix'}</h3>
<table class="list"><thead><tr><th class="n">from</th><th class="n">until</th><th>what</th><th class="n">done at</th></tr></thead>
<tbody>${v.steps.map(clockRow(f))}</tbody></table></div>
<h3>Held down, and lifted</h3>
<table class="list by-part"><thead><tr><th>pattern</th><th class="n">flask filled</th><th class="n">hot from the kiln</th><th class="n">poured</th><th class="n strong">slurry lifts the pattern by</th><th class="n">by, if printed hollow</th></tr></thead>
${bodyRows(parts.map((p) => loadRow(ctx, p)))}</table>
<p class="small">The lift is what wax on the base plate, or a weight on the pattern, must hold with some to spare while the slurry is wet.</p>
${basisList([...basisEntries(v.bases), ...parts.flatMap((p) => basisEntries(p.flask.bases, p.name))])}`,
  });
}
