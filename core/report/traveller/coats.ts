import type { Coat } from '../../foundry/shell/plans.js';
import { isInShell } from '../../job/summary.js';
import { maths } from '../../maths/maths.js';
import { formatNumber, gramsPer, millimetresPerInch } from '../../units/index.js';
import { decimals } from '../format.js';
import { type Html, html } from '../html.js';
import { basisEntries, basisList } from './basis.js';
import { type Context, capital, moulds, partHead } from './context.js';
import { stepFindings } from './findings.js';
import { bodyRows } from './rows.js';
import { checklist, renderStep } from './step.js';

/** What a coat is, in words. */
const coatNames: Readonly<Record<Coat['name'], string>> = {
  prime: 'prime: fine grain, every hollow wetted',
  backup: 'backup: dip, drain, stucco all over',
  seal: 'seal: slurry alone; then dry right through',
};

/** Day and hour from the first dip: `day 1, 4 h`. */
export const dipTime = (at: number, f: Context['f']): string => {
  const days = Math.floor(at / 86_400);
  const rest = at - days * 86_400;
  return `day ${days + 1}${rest > 0 ? `, after ${f.duration(rest)}` : ''}`;
};

function coatRows({ summary: { coating }, f }: Context): readonly Html[] {
  if (!coating) return [];
  return coating.coats.map((c) => {
    const grain = c.grain
      ? `${formatNumber(c.grain[0], { digits: 1 })} to ${formatNumber(c.grain[1], { digits: 1 })}\u00A0mm`
      : '–';
    return html`<tr class="tall"><td class="n"><b>${c.number}</b></td><th scope="row">${capital(coatNames[c.name])}</th><td class="n">${grain}</td><td class="n">${f.lengthNumber(c.thickness)}</td><td>${capital(dipTime(c.at, f))}</td><td class="n strong">${f.duration(c.dry)}</td><td class="blank"></td><td class="blank"></td></tr>`;
  });
}

/** Step 4 where the moulds are shells. */
export function coatStep(ctx: Context, number: number): Html {
  const { summary: s, f } = ctx;
  const v = s.coating;
  if (!v) return html``;
  const parts = s.parts.filter(isInShell);
  const most = Math.max(...parts.map((p) => p.shell.coats));
  const fewer = parts.some((p) => p.shell.coats < most);
  const percent = ([low, high]: readonly [number, number]): string =>
    `${Math.round(100 * low)} to ${Math.round(100 * high)} %`;
  const density =
    f.view.lengthUnit === 'mm'
      ? `${decimals(v.slurryDensity * 1000, 2)} g/cm³`
      : `${decimals((v.slurryDensity * maths.pow(millimetresPerInch, 3)) / gramsPer.oz, 3)} oz/in³`;
  return renderStep(ctx, {
    number,
    id: 'mix',
    title: 'Coat the shell',
    lead: `${v.title}: ${most} stuccoed coats at most and a seal, each dry before the next. ${f.duration(v.total)} from the first dip to the fire, with three dips in a working day.`,
    cautions: ['mix'],
    body: html`${stepFindings(parts.map((p) => ({ where: p.name, findings: p.shell.findings })))}
${checklist([
  'Pattern wiped with alcohol and dry, held by a hook or rod at the cup; the slurry has been stirred, without bubbles, and has the maker’s flow-cup time.',
  'Dip slowly, corner first, turn under the slurry and brush or blow it into hollows; it must be pushed under, since it floats.',
  'Lift, turn while it drains until the coat is even and no longer runs, then sift or dip on the grain at once, all over.',
  `Dry in moving air at ${f.temperatureRange(v.room.temperature)} and ${percent(v.room.humidity)} relative humidity, steady: print and shell move apart with the heat. Deep holes and pockets take two to three times as long; the shell is dry when it is no longer cool to the back of the hand.`,
  'Loose grain is blown off before the next dip.',
  'After the seal, grind or wipe the shell off the cup’s brim and the vents’ ends until plastic shows: that is where it runs out and air gets in.',
])}
<table class="list">
<thead><tr><th class="n">coat</th><th>what</th><th class="n">grain</th><th class="n">adds, ${f.lengthUnit}</th><th>dip</th><th class="n strong">dries for</th><th class="n">dipped at</th><th class="n">dry at</th></tr></thead>
${bodyRows(coatRows(ctx))}</table>
${fewer && html`<p class="small">Patterns with fewer coats leave out the last backups and have their seal when those are due.</p>`}
<table class="list by-part">
<thead><tr><th>pattern</th><th class="n strong">coats and seal</th><th class="n">shell thickness</th><th class="n">surface</th><th class="n">slurry, each</th><th class="n">stucco, each</th><th class="n">slurry lifts it by</th><th class="n">by, if printed hollow</th></tr></thead>
${bodyRows(
  parts.map(
    ({
      shell: k,
      ...p
    }) => html`<tr>${partHead({ ...p, shell: k })}<td class="n strong">${k.coats} + 1</td><td class="n">${f.rough(k.thickness)}</td><td class="n">${f.view.lengthUnit === 'mm' ? `${decimals(k.area / 100, 0)} cm²` : `${decimals(k.area / millimetresPerInch ** 2, 1)} in²`}</td>
<td class="n">${f.mass(k.slurry)}</td><td class="n">${f.mass(k.stucco)}</td><td class="n">${f.mass(k.lift.solid)}</td><td class="n">${f.mass(k.lift.hollow)}</td></tr>`,
  ),
)}
<tbody><tr class="total"><td colspan="4">${moulds(s.parts) === 1 ? 'The shell' : `All ${moulds(s.parts)} shells`}</td><td class="n">${f.mass(v.slurry)}</td><td class="n">${f.mass(v.stucco)}</td><td colspan="2"></td></tr></tbody>
</table>
<p class="small">Slurry and stucco hold ${f.percent(v.wasteFraction, 1)} for what drains and falls off for good. A kilogram of slurry: ${f.mass(v.recipe.flour)} flour and ${f.mass(v.recipe.sol)} sol; it weighs ${density}. The tank that covers the largest pattern, ${f.rough(v.tank.diameter)} across and ${f.rough(v.tank.depth)} deep, still wants ${f.massDual(v.tank.slurry)} in it at the last coat.</p>
<h3>What the shell weighs and bears</h3>
<table class="list by-part">
<thead><tr><th>pattern</th><th class="n">dried, pattern in it</th><th class="n">out of the kiln</th><th class="n">poured</th><th class="n">bent by the metal</th><th class="n">may be</th><th>pour it standing</th></tr></thead>
${bodyRows(
  parts.map(
    (
      p,
    ) => html`<tr>${partHead(p)}<td class="n">${f.mass(p.shell.mass.dried)}</td><td class="n">${f.mass(p.shell.mass.fired)}</td><td class="n">${f.mass(p.shell.mass.poured)}</td>
<td class="n">${decimals(p.shell.stress.greatest, 2)} MPa${p.shell.stress.flat > 0 && html`<span class="method">over a flat ${f.rough(p.shell.stress.flat)} wide</span>`}</td><td class="n">${decimals(p.shell.stress.allowed, 2)} MPa</td><td>${p.shell.stands}</td></tr>`,
  ),
)}</table>
${basisList([...basisEntries(v.bases), ...parts.flatMap((p) => basisEntries(p.shell.bases, p.name))])}`,
  });
}
