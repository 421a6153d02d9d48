import type { Field } from '../../../core/part/field-list.js';
import { fieldWords, plainWords } from '../../../core/part/field-words.js';
import type { Finding } from '../../../core/part/finding.js';
import { gravestFirst } from '../../../core/report/findings.js';
import type { View } from '../../../core/report/format.js';
import { readersUnits } from '../../../core/report/reader-units.js';
import { type MechanicalRemedy, mechanicalRemedy } from './mechanical-remedy.js';
import { SeverityMark, severityWords } from './severity-mark.js';

interface FindingContext {
  /** Of the part the findings are about; none for a job's. */
  readonly fields: readonly Field[];
  readonly view: View;
  readonly onRemedy?: ((remedy: MechanicalRemedy, finding: Finding) => void) | undefined;
}

export function FindingItem({
  finding,
  fields,
  view,
  onRemedy,
}: FindingContext & { readonly finding: Finding }) {
  const remedy = onRemedy && mechanicalRemedy(finding, fields, view.lengthUnit);
  return (
    <li class={`finding is-${finding.severity}`}>
      <SeverityMark severity={finding.severity} />
      <div class="finding-text">
        <p>
          <strong class="finding-word">{severityWords[finding.severity]}</strong>{' '}
          {readersUnits(plainWords(finding.message), view)}
        </p>
        <p class="finding-remedy">{readersUnits(plainWords(finding.remedy), view)}</p>
        {remedy && (
          <button type="button" class="finding-button" onClick={() => onRemedy(remedy, finding)}>
            {remedy.label}
          </button>
        )}
      </div>
    </li>
  );
}

/** Findings in full, the gravest first, each with its remedy and, where that is a value, a button for it. */
export function FindingList({
  findings,
  ...context
}: FindingContext & { readonly findings: readonly Finding[] }) {
  if (findings.length === 0) return null;
  return (
    <ul class="finding-list">
      {gravestFirst(findings).map((finding) => (
        <FindingItem key={`${finding.code} ${finding.message}`} finding={finding} {...context} />
      ))}
    </ul>
  );
}

/** Under a field that a finding concerns but is not told under. */
export function FindingPointer({
  finding,
  toldUnder,
  onReveal,
}: {
  readonly finding: Finding;
  readonly toldUnder: string;
  readonly onReveal: (name: string) => void;
}) {
  const place = fieldWords(toldUnder).toLowerCase();
  return (
    <p class="finding-pointer">
      <SeverityMark severity={finding.severity} />
      <button type="button" class="finding-link" onClick={() => onReveal(toldUnder)}>
        {severityWords[finding.severity]} at {place}
      </button>
    </p>
  );
}
