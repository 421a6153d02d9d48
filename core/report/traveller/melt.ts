import { type Html, html } from '../html.js';
import { basisEntries, basisList } from './basis.js';
import { type Context, own } from './context.js';
import { checklist, renderStep } from './step.js';

/** Step 6: the charge of each alloy. */
export function meltStep(ctx: Context, number: number): Html {
  const { summary: s, f } = ctx;
  const fills = (alloy: string): Html =>
    html`${s.parts
      .filter((p) => p.alloy === alloy)
      .map((p, i) => html`${i > 0 && ', '}${own(p.name)}${p.quantity > 1 && ` × ${p.quantity}`}`)}`;
  return renderStep(ctx, {
    number,
    id: 'melt',
    title: 'Melt',
    lead: 'Weigh out each charge and write down what went in. Sprues and cups of the same clean alloy may be part of it.',
    cautions: ['melt'],
    body: html`${checklist([
      'Charge, ladle, skimmer, tongs and ingot mould are dry and preheated.',
      'A dry ingot mould stands ready for what is left over.',
      'Crucible sound, rated for this charge, and used for this alloy only.',
    ])}
<table class="list">
<thead><tr><th>alloy</th><th class="n">in the moulds</th><th class="n">melt loss</th><th class="n">reserve</th><th class="n strong">charge to weigh out</th><th class="n">least energy</th><th class="n">weighed</th></tr></thead>
<tbody>${s.charge.map(
      (
        c,
      ) => html`<tr class="tall"><th scope="row">${c.title}<span class="method">fills ${fills(c.alloy)}</span></th>
<td class="n">${f.mass(c.inMoulds)}</td><td class="n">${f.percent(c.meltLoss)}</td><td class="n">${f.mass(c.reserve)}</td>
<td class="n strong">${f.massDual(c.charge)}</td><td class="n">${f.energy(c.energy)}</td><td class="blank"></td></tr>`,
    )}</tbody></table>
<p class="small">Energy is what the metal itself takes to melt and superheat; a furnace uses several times as much.</p>
${basisList(s.charge.flatMap((c) => basisEntries(c.bases, c.title)))}`,
  });
}
