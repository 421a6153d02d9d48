import { castingsOf } from '../../job/castings-of.js';
import type { PartSummary } from '../../job/summary.js';
import { type SurfaceClass, surfaceClasses } from '../../part/stock.js';
import { type Html, html } from '../html.js';
import { type BasisEntry, basisList } from './basis.js';
import { type Context, partHead } from './context.js';
import { checklist, renderStep } from './step.js';

const classNames: Readonly<Record<SurfaceClass, string>> = {
  flank: 'tooth flanks',
  tip: 'tooth tips',
  face: 'faces',
  bore: 'bore',
  skin: 'skin, by hand',
  mating: 'mating surfaces',
};

/** The surface classes a part has, in the standing order. */
const classesOf = (p: PartSummary): readonly SurfaceClass[] =>
  surfaceClasses.filter((c) => p.surfaces.some((s) => s.surfaceClass === c && s.amount === undefined));

/** What is taken off where: by class, then what has an amount of its own. */
const rowsOf = (
  p: PartSummary,
): readonly { readonly kind: string; readonly where: string; readonly stock: number }[] => [
  ...classesOf(p).map((c) => {
    const names = p.surfaces.filter((s) => s.surfaceClass === c && s.amount === undefined).map((s) => s.name);
    return { kind: classNames[c], where: [...new Set(names)].join(', '), stock: p.stock.stock[c] };
  }),
  ...p.surfaces.flatMap(({ name, amount }) =>
    amount === undefined ? [] : [{ kind: 'by itself', where: name, stock: amount }],
  ),
];

function stockRows({ f }: Context, p: PartSummary): Html {
  const rows = rowsOf(p);
  return html`<tbody class="keep">${rows.map(
    ({ kind, where, stock }, i) =>
      html`<tr>${
        i === 0 && html`<th scope="rowgroup" class="part" rowspan="${rows.length}">${partHeadText(p)}</th>`
      }<td>${kind}</td><td>${where}</td><td class="n strong">${
        stock === 0 ? 'as cast' : f.length(stock)
      }</td><td class="done"><span class="tick"></span></td></tr>`,
  )}</tbody>`;
}

const partHeadText = (p: PartSummary): string => (p.quantity > 1 ? `${p.name} × ${p.quantity}` : p.name);

/** What is bought or cut to go with the castings. */
function fittingsTable(parts: readonly PartSummary[]): Html {
  const fitted = parts.filter((p) => p.fittings.length > 0);
  if (fitted.length === 0) return html``;
  return html`<h3>To fit it: bought or cut, not cast</h3>
<table class="list by-part close">
<thead><tr><th>casting</th><th class="n">for all</th><th>what</th><th>at hand</th></tr></thead>
${fitted.map(
  (p) =>
    html`<tbody class="keep">${p.fittings.map(
      (x, i) =>
        html`<tr>${
          i === 0 &&
          html`<th scope="rowgroup" class="part" rowspan="${p.fittings.length}">${partHeadText(p)}</th>`
        }<td class="n strong">${x.quantity * p.quantity}</td><td>${x.text}</td><td class="done"><span class="tick"></span></td></tr>`,
    )}</tbody>`,
)}</table>`;
}

/** Step 9: how much to take off where. */
export function finishStep(ctx: Context, number: number): Html {
  const castings = castingsOf(ctx.summary.parts);
  const bases: BasisEntry[] = castings.flatMap((p) =>
    classesOf(p).map((c) => ({ label: classNames[c], where: p.name, basis: p.stock.basis[c] })),
  );
  return renderStep(ctx, {
    number,
    id: 'finish',
    title: 'Finish',
    lead: 'Take the stock off down to the part size. Each figure is for one side: a bore opens, and two parallel faces close, by twice as much.',
    cautions: ['finish'],
    body: html`${checklist([
      'File the gate and vent stubs flush first.',
      'Machine from the bore and one face; check sizes on the inspection sheet before the last cut.',
    ])}
<table class="list by-part close">
<thead><tr><th>casting</th><th>surface</th><th>where</th><th class="n strong">take off, a side</th><th>done</th></tr></thead>
${castings.map((p) =>
  rowsOf(p).length === 0
    ? html`<tbody><tr>${partHead(p)}<td colspan="4">no surfaces named</td></tr></tbody>`
    : stockRows(ctx, p),
)}</table>
${fittingsTable(castings)}
${basisList(bases)}`,
  });
}
