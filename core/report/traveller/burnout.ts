import { burnoutChart } from '../burnout-chart.js';
import type { Format } from '../format.js';
import { type Html, html } from '../html.js';
import { basisEntries, basisList } from './basis.js';
import { type Context, capital } from './context.js';
import { stepFindings } from './findings.js';
import { bodyRows } from './rows.js';
import { checklist, renderStep } from './step.js';

/** Ramp-and-soak rows with the time at each segment's end. */
function programme({ summary: { burnout }, f }: Context): Html {
  let elapsed = 0;
  const rows = burnout.segments.map((s, i) => {
    elapsed += s.ramp + s.soak;
    return html`<tr class="tall"><td class="n"><b>${i + 1}</b></td><th scope="row">${capital(s.purpose)}</th>
<td class="n">${f.temperatureNumber(s.from)}</td><td class="n strong">${f.temperatureNumber(s.to)}</td>
<td class="n">${s.ramp > 0 ? f.rateNumber(s.rate) : '–'}</td>
<td class="n">${s.ramp > 0 ? f.clock(s.ramp) : '–'}</td><td class="n strong">${s.soak > 0 ? f.clock(s.soak) : '–'}</td>
<td class="n">${f.clock(elapsed)}</td><td class="blank"></td></tr>`;
  });
  return html`<table class="list">
<thead><tr><th></th><th>segment</th><th class="n">from, ${f.degreeUnit}</th><th class="n strong">to, ${f.degreeUnit}</th><th class="n">ramp, ${f.degreeUnit}/h</th><th class="n">ramp time, h:min</th><th class="n strong">soak, h:min</th><th class="n">elapsed, h:min</th><th class="n">clock at the end</th></tr></thead>
${bodyRows(rows)}
<tbody><tr class="total"><td colspan="7">Total, start to pour</td><td class="n strong">${f.clock(burnout.total)}</td><td></td></tr></tbody>
</table>`;
}

const otherDegrees = ({ segments }: Context['summary']['burnout'], f: Format): string =>
  segments.map((s) => f.temperatureDual(s.to)).join(', ');

/** Step 5: the kiln programme. */
export function burnoutStep(ctx: Context, number: number): Html {
  const { summary: s, f } = ctx;
  const b = s.burnout;
  return renderStep(ctx, {
    number,
    id: 'burnout',
    title: 'Burn out',
    lead: `${f.duration(b.total)} in all, hottest ${f.temperatureDual(b.peak)}; the flasks leave the kiln at ${f.temperatureDual(b.castingTemperature)}. The largest flask, ${f.rough(b.flaskDiameter)} across, sets the holds.`,
    cautions: ['burnout'],
    body: html`${stepFindings([{ findings: b.findings }])}
${checklist([
  'Flasks stand cup down on supports, so that plastic runs out and air gets in.',
  'Set the controller’s segments as below and read them back before starting.',
  'At the end of the top soak the cups are clean and white, with no black left. If not, hold on: soot in the mould is gas in the metal.',
])}
${programme(ctx)}
<div class="keep">${burnoutChart(b, f)}</div>
<p class="small">Where the segments end, in both scales: ${otherDegrees(b, f)}.</p>
<div class="write"><span>kiln started at</span><span>flasks ready at</span><span>flask temperature at the pour</span></div>
${basisList(basisEntries(b.bases))}`,
  });
}
