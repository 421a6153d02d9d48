import type { Severity } from '../../../core/part/finding.js';

export const severityWords: Readonly<Record<Severity, string>> = {
  stop: 'Stop',
  warn: 'Warning',
  note: 'Note',
};

/** Told apart by shape before colour: an eight-sided plate, a triangle, a ring. */
const shapes: Readonly<Record<Severity, string>> = {
  stop: 'M5 1h6l4 4v6l-4 4H5l-4-4V5z',
  warn: 'M8 1l7 13.5H1z',
  note: 'M8 1a7 7 0 1 0 .001 0z',
};
const strokes: Readonly<Record<Severity, string>> = {
  stop: 'M5.2 5.2l5.6 5.6M10.8 5.2l-5.6 5.6',
  warn: 'M8 6v4M8 12v.6',
  note: 'M8 7.4v4M8 4.4v.6',
};

export function SeverityMark({ severity }: { readonly severity: Severity }) {
  return (
    <svg class={`severity-mark is-${severity}`} viewBox="0 0 16 16" aria-hidden="true" focusable="false">
      <path class="severity-shape" d={shapes[severity]} />
      <path class="severity-stroke" d={strokes[severity]} />
    </svg>
  );
}
