import { findingLines, namesOf, ofTheKind, sentence } from '../findings.js';
import { type Html, html } from '../html.js';
import { shareNotMade } from '../share-not-made.js';
import { type Context, own, plural } from './context.js';

/** Names in a line before the rest are counted. */
const mostNames = 24;

/** What the job asks for and this paper is not for: which parts, why, and what would mend it. */
export function notMadeBox({ summary }: Context): Html {
  const { notMade = [], parts } = summary;
  if (notMade.length === 0) return html``;
  const lines = findingLines(
    notMade.map(({ name, findings }) => ({
      part: name,
      findings: findings.filter((f) => f.severity === 'stop'),
    })),
  );
  const castings = notMade.reduce((sum, p) => sum + p.quantity, 0);
  return html`<div class="findings not-made">
<h2>NOT MADE: ${shareNotMade(summary)}${parts.every((p) => p.members === undefined) && html`<span class="tally">, ${plural(castings, 'casting')}</span>`}</h2>
<p>Nothing on these sheets is for them: no plastic, plaster, metal or cost. Mend the job and make it again, or cast the rest as it stands.</p>
<ul>${lines.map(
    ({ code, parts: of, finding }) =>
      html`<li class="stop"><span class="tag">STOP</span><span><b>${own(namesOf(of, mostNames))}:</b> ${
        finding
          ? html`${sentence(finding.message)} <b class="remedy">${sentence(finding.remedy)}</b>`
          : ofTheKind('summary.json')
      } <code>${code}</code></span></li>`,
  )}</ul>
</div>`;
}
