import type { PartSummary } from '../../job/summary.js';
import { formatNumber, gramsPer, millimetresPerInch } from '../../units/index.js';
import { decimals } from '../format.js';
import { type Html, html } from '../html.js';
import { basisEntries, basisList } from './basis.js';
import { type Context, partHead, pieces } from './context.js';
import { stepFindings } from './findings.js';
import { bodyRows } from './rows.js';
import { checklist, renderStep } from './step.js';

const flaskRow = ({ f }: Context, p: PartSummary): Html => {
  const k = p.flask;
  return html`<tr class="tall">${partHead(p)}
<td>${k.name}<span class="method">ø ${f.roughNumber(k.insideDiameter)} × ${f.rough(k.insideHeight)} inside; clear at wall ${f.roughNumber(k.clearance.wall)}, floor ${f.roughNumber(k.clearance.floor)}, cover ${f.roughNumber(k.clearance.cover)}</span></td>
<td class="n">${f.volume(k.slurryVolume)}</td>
<td class="n strong">${f.mass(k.powder)}</td><td class="n strong">${f.mass(k.water)}</td>
<td class="blank"></td><td class="blank"></td></tr>`;
};

/** Step 4: investment for each flask. */
export function mixStep(ctx: Context, number: number): Html {
  const { summary: s, f } = ctx;
  const v = s.investment;
  return renderStep(ctx, {
    number,
    id: 'mix',
    title: 'Weigh and mix the investment',
    lead: `${v.title}: ${formatNumber(v.waterRatio * 100, { digits: 1 })} parts of water to 100 of powder, by weight. Working time ${f.duration(v.workingTime)} from first contact with water.`,
    cautions: ['mix'],
    body: html`${stepFindings(s.parts.map((p) => ({ where: p.name, findings: p.flask.findings })))}
${checklist([
  'Flasks, bases, bowl, scale, clock and vacuum or vibrator are ready before powder meets water.',
  'Weigh powder and water; water is weighed, not poured by eye. Add powder to water.',
  `Mix, remove the air, fill down the flask’s side and remove the air again, all inside ${f.duration(v.workingTime)}.`,
  'Leave undisturbed until hard; then clean the cup’s and vents’ ends so that plastic shows.',
])}
<table class="list by-part">
<thead><tr><th>pattern</th><th>flask</th><th class="n">slurry</th><th class="n strong">powder, a flask</th><th class="n strong">water, a flask</th><th class="n">powder weighed</th><th class="n">water weighed</th></tr></thead>
${bodyRows(s.parts.map((p) => flaskRow(ctx, p)))}
<tbody><tr class="total"><td colspan="3">${pieces(s.parts) === 1 ? 'The flask' : `All ${pieces(s.parts)} flasks`}</td><td class="n strong">${f.mass(v.powder)}</td><td class="n strong">${f.mass(v.water)}</td><td colspan="2"></td></tr></tbody>
</table>
<p class="small">Powder and water hold ${f.percent(v.wasteFraction, 1)} for waste. In all: powder ${f.massDual(v.powder)}, water ${f.massDual(v.water)}. Slurry weighs ${f.view.lengthUnit === 'mm' ? `${decimals(v.slurryDensity * 1000, 2)} g/cm³` : `${decimals((v.slurryDensity * millimetresPerInch ** 3) / gramsPer.oz, 3)} oz/in³`}.</p>
${basisList([...basisEntries(v.bases), ...s.parts.flatMap((p) => basisEntries(p.flask.bases, p.name))])}`,
  });
}
