import { type Html, html } from '../html.js';
import { type Context, mouldOf, own } from './context.js';
import { bodyRows } from './rows.js';
import { renderStep } from './step.js';

/** Rows filled in with mould and alloy; beyond these, three pages, the shop writes its own. */
const mostRows = 60;

/** Step 11: the log of the pour. */
export function recordStep(ctx: Context, number: number): Html {
  const { summary: s, f } = ctx;
  const blanks = (n: number): Html[] => Array.from({ length: n }, () => html`<td class="blank"></td>`);
  const moulds = s.parts.flatMap((p) =>
    Array.from({ length: p.moulds }, (_, i) => ({
      name: p.name,
      mould: i + 1,
      of: p.moulds,
      castings: p.patternsPerTree,
      alloy: p.alloy,
    })),
  );
  const rows = [
    ...moulds
      .slice(0, mostRows)
      .map(
        (k) =>
          html`<tr class="tall"><th scope="row" class="part">${own(k.name)}${k.of > 1 && ` ${k.mould}/${k.of}`}${k.castings > 1 && html`<span class="method">tree of ${k.castings}</span>`}</th><td class="alloy">${k.alloy}</td>${blanks(5)}</tr>`,
      ),
    ...(moulds.length > mostRows
      ? Array.from({ length: 4 }, () => html`<tr class="tall">${blanks(7)}</tr>`)
      : []),
  ];
  return renderStep(ctx, {
    number,
    id: 'record',
    title: 'Record',
    lead: `One line a ${mouldOf(s)}, the same day. Enter it in the pour log, with the measured sizes: patternwright log add.`,
    cautions: [],
    body: html`<table class="list log by-part">
<thead><tr><th>${mouldOf(s)}</th><th>alloy</th><th class="n">date</th><th class="n">metal, ${f.degreeUnit}</th><th class="n">${mouldOf(s)}, ${f.degreeUnit}</th><th class="n">pour time</th><th class="wide">faults: misrun, cold shut, porosity, bubbles, cracks, flash</th></tr></thead>
${bodyRows(rows)}</table>
<div class="ruled"><p>Notes: weather, metal used, what to change next time</p>${Array.from({ length: rows.length > 10 ? 3 : 5 }, () => html`<div class="rule"></div>`)}</div>`,
  });
}
