import type { PartSummary } from '../../job/summary.js';
import { type Html, html } from '../html.js';
import { alloyTitle, type Context, own, partHead, plural } from './context.js';

/** More parts than this stand in a table: hundreds of cards are no overview, and their pictures make the paper heavy. */
const mostCards = 60;

/** What the job makes, part by part. */
export const partsMade = (ctx: Context): Html =>
  ctx.summary.parts.length > mostCards
    ? partTable(ctx)
    : html`<div class="cards">${ctx.summary.parts.map((p) => partCard(ctx, p))}</div>`;

function partCard(ctx: Context, p: PartSummary): Html {
  const { f, summary } = ctx;
  const picture = ctx.picture('preview', p.name);
  return html`<div class="card">
<div class="picture">${
    picture === undefined
      ? html`<span class="light">no picture</span>`
      : html`<img src="${picture}" alt="The gated pattern of ${p.name}"/>`
  }<div class="quantity">${p.quantity} off${p.patternsPerTree > 1 && html`<span class="method">${plural(p.moulds, 'tree')} of ${p.patternsPerTree}</span>`}</div></div>
<div class="facts">
<h3>${own(p.name)}</h3>
<p class="light">${own(p.title)}</p>
<p><b>${alloyTitle(summary, p.alloy)}</b></p>
${p.members === undefined ? html`<p>${f.box(p.meshes.part.size)}</p>` : memberList(p.members, f)}
<p>${p.members && 'All on a tree: '}${f.mass(p.mass.part)} finished, ${f.mass(p.mass.casting)} as cast, <b>${p.patternsPerTree > 1 && 'a tree '}with gating ${f.massDual(p.mass.charge)}</b></p>
</div>
</div>`;
}

/** What hangs on a tree of several kinds. */
const memberList = (members: NonNullable<PartSummary['members']>, f: Context['f']): Html =>
  html`<ul class="members">${members.map(
    (m) =>
      html`<li><b>${m.count} × ${own(m.name)}</b> <span class="light">${own(m.title)}, ${f.box(m.meshes.part.size)}, ${f.mass(m.mass.part)} finished</span></li>`,
  )}</ul>`;

function partTable({ f, summary }: Context): Html {
  const size = (p: PartSummary): Html =>
    p.members === undefined ? html`${f.box(p.meshes.part.size)}` : memberList(p.members, f);
  return html`<table class="list">
<thead><tr><th>part</th><th>alloy</th><th>size</th><th class="n">finished</th><th class="n">as cast</th><th class="n">with gating</th></tr></thead>
<tbody>${summary.parts.map(
    (p) =>
      html`<tr>${partHead(p)}<td>${alloyTitle(summary, p.alloy)}</td><td>${size(p)}</td><td class="n">${f.mass(p.mass.part)}</td><td class="n">${f.mass(p.mass.casting)}</td><td class="n">${f.mass(p.mass.charge)}</td></tr>`,
  )}</tbody>
</table>
<p class="small">Of one, and with gating of one mould${summary.parts.some((p) => p.members) && '; of a tree of several kinds all that hangs on it'}. Each part is pictured in its own folder.</p>`;
}
