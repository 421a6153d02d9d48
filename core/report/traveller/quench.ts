import type { GatingPlan } from '../../foundry/plans.js';
import type { PartSummary } from '../../job/summary.js';
import { hasStop } from '../../part/finding.js';
import type { Format } from '../format.js';
import { type Html, html } from '../html.js';
import { type Context, mouldOf, partHead } from './context.js';
import { gateNames } from './gate.js';
import { bodyRows } from './rows.js';
import { checklist, renderStep } from './step.js';

/** `rim 1; 3 × rim 2`: what comes several times, as on a tree, once with its count. */
const counted = (texts: readonly string[]): string =>
  [...new Set(texts)]
    .map((text) => {
      const count = texts.filter((x) => x === text).length;
      return count > 1 ? `${count} × ${text}` : text;
    })
    .join('; ');

/** Growth of what a gate or vent stands on: on a tree of several kinds it is called after its own. */
const growthAt = ({ members = [], growth }: PartSummary, name: string): number =>
  (members.find((m) => name.startsWith(`${m.name}: `)) ?? { growth }).growth.value;

/** `ø 2.36: rim 1; rim 2`, a diameter once. */
function ventPlaces(vents: GatingPlan['vents'], p: PartSummary, f: Format): string {
  const sized = vents.map((v) => ({ name: v.name, size: f.lengthNumber(v.diameter / growthAt(p, v.name)) }));
  if (sized.length === 0) return 'none';
  return [...new Set(sized.map((v) => v.size))]
    .map((size) => `ø ${size}: ${counted(sized.filter((v) => v.size === size).map((v) => v.name))}`)
    .join('; ');
}

/** Step 8: out of the flask and off the sprue. Cut sizes are on the casting: pattern size without growth. */
export function quenchStep(ctx: Context, number: number): Html {
  const { summary: s, f } = ctx;
  const frozen = s.parts.some((p) => p.freeze);
  return renderStep(ctx, {
    number,
    id: 'quench',
    title: s.coating ? 'Cool, knock off, saw' : 'Quench, knock out, saw',
    lead: s.coating
      ? 'Let the metal set through and lose its glow before the shell is moved. Leave it to cool: a shell is not quenched, it is broken off.'
      : 'Let the metal set through and lose its glow before the flask is moved. Quench or cool as the investment’s datasheet says.',
    // Knocking out and sawing raise the dusts that the finishing cautions are about.
    cautions: ['quench', 'finish'],
    body: html`${checklist([
      s.coating
        ? 'Soak the cold shell, knock it off with a hammer on the sprue or with a wire brush, wet, away from the casting’s faces; get it out of holes with a pick or a water jet. Look for fins, misruns and pores before sawing.'
        : 'Knock out wet, wash, and look for fins, misruns and pores before sawing.',
      'Saw outside the gate and leave a stub of about 1 mm (0.04 in) to file (common practice, no source). Cut vents the same way.',
      'Mark each casting with its piece number. Keep sprues of different alloys apart.',
    ])}
<table class="list by-part">
<caption>${frozen ? 'Times from the full mould, calculated; where' : 'Where'} to saw, sizes on the casting, ${f.lengthUnit}</caption>
<thead><tr><th>casting</th>${frozen && html`<th class="n">move it not before</th><th class="n">${s.coating ? 'handle it not before' : 'quench not before'}</th>`}<th>gate</th><th class="n">gate ø</th><th>vents: ø and places</th><th class="n">metal back, a ${mouldOf(s)}</th></tr></thead>
${bodyRows(
  s.parts.map((p) => {
    const waits =
      frozen &&
      (p.freeze
        ? html`<td class="n">${f.duration(p.freeze.move)}</td><td class="n">${f.duration(p.freeze.quench.at)}</td>`
        : html`<td></td><td></td>`);
    if (hasStop(p.gating.findings))
      return html`<tr>${partHead(p)}${waits}<td colspan="4">no gating: see the findings</td></tr>`;
    const { vents, gates } = p.gating;
    return html`<tr>${partHead(p)}${waits}<td>${gateNames(gates)}</td><td class="n">${counted(gates.map((x) => f.lengthNumber(x.outerDiameter / growthAt(p, x.name))))}</td>
<td>${ventPlaces(vents, p, f)}</td><td class="n">${f.massDual(p.mass.gating)}</td></tr>`;
  }),
)}</table>`,
  });
}
