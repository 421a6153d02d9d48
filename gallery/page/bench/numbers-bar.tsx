import type { Summary } from '../../../core/job/summary.js';
import type { View } from '../../../core/report/format.js';
import { keyNumbers } from './key-numbers.js';

export interface NumbersBarProps {
  readonly summary: Summary | null;
  readonly casting: string;
  readonly view: View;
  /** They are of an earlier text. */
  readonly stale: boolean;
  /** The present text cannot be made. */
  readonly refused: boolean;
  readonly progress: { readonly stage: string; readonly share: number } | null;
}

/** What to melt, mix, pour and print, always in sight; how far the work is. */
export function NumbersBar({ summary, casting, view, stale, refused, progress }: NumbersBarProps) {
  return (
    <section class="numbers" aria-label="Key numbers">
      {summary ? (
        <dl class={stale ? 'stale' : ''} tabIndex={0}>
          {keyNumbers(summary, casting, view).map(({ label, text }) => (
            <div key={label}>
              <dt>{label}</dt>
              <dd>{text}</dd>
            </div>
          ))}
        </dl>
      ) : (
        <p class="soft">
          {refused
            ? 'The numbers come when the job can be made: see Findings.'
            : 'The numbers are being worked out.'}
        </p>
      )}
      <p class="progress" role="status">
        {progress
          ? `${progress.stage === '' ? 'Making' : progress.stage} …`
          : summary && stale && refused
            ? 'Of the job as it was: as it stands now it cannot be made, see Findings.'
            : ''}
      </p>
    </section>
  );
}
