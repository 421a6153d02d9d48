import type { Finding, Severity } from '../../part/finding.js';
import { countFindings, distinctFindings, sentence, sharedFindings, tally } from '../findings.js';
import { type Html, html } from '../html.js';
import { type Context, own, plural } from './context.js';

const tag: Readonly<Record<Severity, string>> = { stop: 'STOP', warn: 'WARN', note: 'note' };

const line = (f: Finding): Html => html`<li class="${f.severity}">
<span class="tag">${tag[f.severity]}</span>
<span>${sentence(f.message)} <b class="remedy">${sentence(f.remedy)}</b> <code>${f.code}</code></span>
</li>`;

const isGrave = (f: Finding): boolean => f.severity !== 'note';

/** Names in a heading before the rest are counted. */
const mostNames = 24;

const headOfMany = (parts: readonly (string | null)[]): readonly Html[] => {
  const rest = parts.length - mostNames;
  return [
    ...parts.slice(0, mostNames).map((name, i) => html`${i > 0 && ', '}${own(name ?? '')}`),
    ...(rest > 0 ? [html` and ${rest} more`] : []),
  ];
};

/** Findings of several parts word for word alike are said once, under all their names. */
function byPart({ summary, findings }: Context, pick: (f: Finding) => boolean): readonly Html[] {
  const titles = new Map(summary.parts.map((p) => [p.name, p.title]));
  const head = (name: string): Html => {
    const title = titles.get(name);
    return html`${own(name)}${title !== undefined && title !== name && html` <span class="light">${own(title)}</span>`}`;
  };
  const groups = sharedFindings(findings.map((g) => ({ part: g.part, findings: g.findings.filter(pick) })));
  return groups.map(({ parts, findings: picked }) => {
    const [first] = parts;
    const title =
      first === null || first === undefined
        ? 'The whole job'
        : parts.length === 1
          ? head(first)
          : headOfMany(parts);
    return html`<h3>${title}</h3><ul>${picked.map(line)}</ul>`;
  });
}

/** What to act on, near the top of the sheet, by part; says how many notes follow. */
export function findingsBox(ctx: Context): Html {
  const count = countFindings(ctx.findings);
  if (ctx.findings.length === 0)
    return html`<div class="findings"><h2>Findings</h2><p>None: every check passed.</p></div>`;
  return html`<div class="findings">
<h2>Findings: read before starting <span class="tally">${tally(count)}</span></h2>
${count.stop > 0 && html`<p class="halt">Do not make this job as it stands. Put the stop findings right first.</p>`}
${count.stop + count.warn === 0 && html`<p>Nothing stops the job and nothing warns.</p>`}${byPart(ctx, isGrave)}
${count.note > 0 && html`<p class="small">${plural(count.note, 'note')} below, after the parts.</p>`}
</div>`;
}

/** The notes, by part. */
export function notesBox(ctx: Context): Html {
  const notes = byPart(ctx, (f) => !isGrave(f));
  return notes.length === 0
    ? html``
    : html`<div class="findings notes-box"><h2>Notes on the parts and the job</h2>${notes}</div>`;
}

/** The stop and warn findings that bear on one step, repeated there. */
export function stepFindings(entries: readonly { where?: string; findings: readonly Finding[] }[]): Html {
  const lines = entries.flatMap(({ where, findings }) =>
    distinctFindings(findings)
      .filter(isGrave)
      .map(
        (f) => html`<li class="${f.severity}"><span class="tag">${tag[f.severity]}</span>
<span>${where !== undefined && html`<b>${own(where)}:</b> `}${sentence(f.message)} <b class="remedy">${sentence(f.remedy)}</b></span></li>`,
      ),
  );
  return lines.length === 0 ? html`` : html`<div class="findings at-step"><ul>${lines}</ul></div>`;
}
