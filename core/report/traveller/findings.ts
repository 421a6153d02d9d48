import type { Finding, Severity } from '../../part/finding.js';
import { countFindings, distinctFindings, tally } from '../findings.js';
import { type Html, html } from '../html.js';
import { type Context, own } from './context.js';

const tag: Readonly<Record<Severity, string>> = { stop: 'STOP', warn: 'WARN', note: 'note' };

const line = (f: Finding): Html => html`<li class="${f.severity}">
<span class="tag">${tag[f.severity]}</span>
<span>${f.message} <b class="remedy">${f.remedy}</b> <code>${f.code}</code></span>
</li>`;

/** All findings of the job, near the top of the sheet: the whole job's first, then by part. */
export function findingsBox({ summary, findings }: Context): Html {
  const count = countFindings(findings);
  if (findings.length === 0)
    return html`<div class="findings"><h3>Findings</h3><p>None: every check passed.</p></div>`;
  return html`<div class="findings">
<h3>Findings: read before starting <span class="tally">${tally(count)}</span></h3>
${count.stop > 0 && html`<p class="halt">Do not make this job as it stands. Put the stop findings right first.</p>`}
${findings.map(
  (g) =>
    html`<h4>${g.part === null ? 'The whole job' : partTitle(g.part)}</h4><ul>${g.findings.map(line)}</ul>`,
)}
</div>`;

  function partTitle(name: string): Html {
    const title = summary.parts.find((p) => p.name === name)?.title;
    return html`${own(name)}${title !== undefined && title !== name && html` <span class="light">${own(title)}</span>`}`;
  }
}

/** The stop and warn findings that bear on one step, repeated there. */
export function stepFindings(entries: readonly { where?: string; findings: readonly Finding[] }[]): Html {
  const lines = entries.flatMap(({ where, findings }) =>
    distinctFindings(findings)
      .filter((f) => f.severity !== 'note')
      .map(
        (f) => html`<li class="${f.severity}"><span class="tag">${tag[f.severity]}</span>
<span>${where !== undefined && html`<b>${own(where)}:</b> `}${f.message} <b class="remedy">${f.remedy}</b></span></li>`,
      ),
  );
  return lines.length === 0 ? html`` : html`<div class="findings at-step"><ul>${lines}</ul></div>`;
}
