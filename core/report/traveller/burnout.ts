import { burnoutChart } from '../burnout-chart.js';
import type { Format } from '../format.js';
import { type Html, html } from '../html.js';
import { basisEntries, basisList } from './basis.js';
import { type Context, capital, mouldOf, plural } from './context.js';
import { stepFindings } from './findings.js';
import { bodyRows } from './rows.js';
import { checklist, renderStep } from './step.js';

/** Ramp-and-soak rows with the time at each segment's end. */
function programme({ summary: { burnout }, f }: Context): Html {
  let elapsed = 0;
  const { clock, segments } = burnout;
  const lags = segments.some((s) => s.coreLag !== undefined);
  const rows = burnout.segments.map((s, i) => {
    elapsed += s.ramp + s.soak;
    return html`<tr class="tall"><td class="n"><b>${i + 1}</b></td><th scope="row">${capital(s.purpose)}${s.watch !== undefined && html` <span class="method">${capital(s.watch)}</span>`}</th>
<td class="n">${f.temperatureNumber(s.from)}</td><td class="n strong">${f.temperatureNumber(s.to)}</td>
<td class="n">${s.ramp > 0 ? f.rateNumber(s.rate) : '–'}</td>
<td class="n">${s.ramp > 0 ? f.clock(s.ramp) : '–'}</td><td class="n strong">${s.soak > 0 ? f.clock(s.soak) : '–'}</td>
${lags && html`<td class="n">${s.coreLag === undefined ? '–' : f.rateNumber(s.coreLag)}</td>`}<td class="n">${f.clock(elapsed)}</td><td class="${clock ? 'n strong' : 'blank'}">${clockCell(clock?.ends[i])}</td></tr>`;
  });
  return html`<table class="list">
<thead><tr><td></td><th>segment</th><th class="n">from, ${f.degreeUnit}</th><th class="n strong">to, ${f.degreeUnit}</th><th class="n">ramp, ${f.degreeUnit}/h</th><th class="n">ramp time, h:min</th><th class="n strong">soak, h:min</th>${lags && html`<th class="n">core behind skin at the end, ${f.degreeUnit}</th>`}<th class="n">elapsed, h:min</th><th class="n">clock at the end</th></tr></thead>
${bodyRows(rows, 6)}
<tbody><tr class="total"><td colspan="${lags ? 8 : 7}">Total, start to pour${clock && html`: switch on ${clockCell(clock.start)}`}</td><td class="n strong">${f.clock(burnout.total)}</td><td></td></tr></tbody>
</table>`;
}

/** `2026-05-09T18:30` as `05-09 18:30`: month and day as ISO 8601 has them. */
const clockCell = (text: string | undefined): string =>
  text === undefined ? '' : text.slice(5).replace('T', ' ');

/** Kiln loads and what the programme takes out of the wall, where they are known. */
function kilnFacts({ summary: { burnout }, f }: Context): Html {
  const { loads = null, energy = null } = burnout;
  if (loads === null && energy === null) return html``;
  return html`<p>${loads !== null && html`${plural(loads, 'kiln load')}. `}${
    energy !== null &&
    html`Energy in all: ${f.energy(energy.total)}; of it ${f.energy(energy.moulds)} to heat the moulds, ${f.energy(energy.water)} to drive off their water.`
  }</p>`;
}

const otherDegrees = ({ segments }: Context['summary']['burnout'], f: Format): string =>
  segments.map((s) => f.temperatureDual(s.to)).join(', ');

const flaskChecks = [
  'Flasks stand cup down on supports, so that plastic runs out and air gets in.',
  'Set the controller’s segments as below and read them back before starting.',
  'At the end of the top soak the cups are clean and white, with no black left. If not, hold on: soot in the mould is gas in the metal.',
];

const shellChecks = {
  flash: [
    'Shells are dry right through; cups, vents and drain holes show plastic. A damp shell bursts in the hot kiln.',
    'Set the controller’s segments as below. It holds at the second segment until the shells are in: switch the power off while the door is open.',
    'Shells go in one at a time with long tongs, cup down on supports over a tray of dry sand; the plastic burns with a flame at once. Face shield, gloves, nobody in front of the door.',
  ],
  ramp: [
    'Shells are dry right through; cups, vents and drain holes show plastic.',
    'Shells stand cup down on supports over a tray of dry sand.',
    'Set the controller’s segments as below, at the kiln’s full rate, and read them back before starting.',
  ],
} as const;
const shellEnd = [
  'At the end the shells are white in and out. One may be let cool to look into it: rinse out ash, dry it, patch cracks with slurry and grain, fire it again.',
];

/** Step 5: the kiln programme. */
export function burnoutStep(ctx: Context, number: number): Html {
  const { summary: s, f } = ctx;
  const b = s.burnout;
  return renderStep(ctx, {
    number,
    id: 'burnout',
    title: 'Burn out',
    lead: `${f.duration(b.total)} in all, hottest ${f.temperatureDual(b.peak)}; the ${mouldOf(s)}s leave the kiln at ${f.temperatureDual(b.castingTemperature)}. ${b.shellThickness === undefined ? `The largest flask, ${f.rough(b.flaskDiameter)} across, sets the holds.` : `The thickest shell, ${f.rough(b.shellThickness)}, is warm through in minutes.`}`,
    cautions: ['burnout'],
    body: html`${stepFindings([{ findings: b.findings }])}
${checklist(b.shellThickness === undefined ? flaskChecks : [...shellChecks[b.firing], ...shellEnd])}
${programme(ctx)}
${kilnFacts(ctx)}
<div class="keep">${burnoutChart(b, f)}</div>
<p class="small">Where the segments end, in both scales: ${otherDegrees(b, f)}.</p>
<div class="write"><span>kiln started at</span><span>${mouldOf(s)}s ready at</span><span>${mouldOf(s)} temperature at the pour</span></div>
${basisList(basisEntries(b.energy ? { ...b.bases, energy: b.energy.basis } : b.bases))}`,
  });
}
