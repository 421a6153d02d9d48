import { useEffect, useRef } from 'preact/hooks';
import type { Summary } from '../../../core/job/summary.js';
import { type Field, listSchemaFields } from '../../../core/part/field-list.js';
import type { Finding } from '../../../core/part/finding.js';
import type { View } from '../../../core/report/format.js';
import type { Bench } from '../bench/bench.js';
import type { Entry } from '../bench/state.js';
import { FindingList } from '../form/finding-list.js';
import type { Problem } from '../job/problem.js';
import type { NamedFindings } from '../work/protocol.js';
import { ProblemList } from './text-panel.js';

export interface FindingsPanelProps {
  readonly bench: Bench;
  readonly entries: readonly Entry[];
  readonly problems: readonly Problem[];
  readonly groups: readonly NamedFindings[];
  readonly cautions: Summary['cautions'];
  readonly view: View;
}

/** All that is to be said of the job: what stops it, what to look at, what to take care of. */
export function FindingsPanel({ bench, entries, problems, groups, cautions, view }: FindingsPanelProps) {
  const quiet = problems.length === 0 && groups.every((g) => g.findings.length === 0);
  const place = useRef<HTMLDivElement>(null);
  const pressed = useRef(false);
  // A remedy's button goes with its finding: who pressed it stays here.
  useEffect(() => {
    if (!pressed.current || document.activeElement !== document.body) return;
    pressed.current = false;
    place.current?.focus({ preventScroll: true });
  });
  return (
    <div ref={place} tabIndex={-1} class="findings">
      {problems.length > 0 && (
        <section>
          <h2>To be put right first</h2>
          <ProblemList problems={problems} />
        </section>
      )}
      {groups.map(({ name, findings }) => {
        const entry = entries.find((e) => e.castings.includes(name));
        const fields: readonly Field[] = entry?.definition
          ? listSchemaFields(entry.definition.parameters)
          : [];
        return (
          <section key={name}>
            <h2>
              {name === '' ? (
                'The job'
              ) : (
                <button type="button" class="link" onClick={() => bench.choose(name)}>
                  {name}
                </button>
              )}
            </h2>
            <Findings
              bench={bench}
              entry={entry}
              findings={findings}
              fields={fields}
              view={view}
              onPressed={() => {
                pressed.current = true;
              }}
            />
          </section>
        );
      })}
      {quiet && <p>Nothing to object to.</p>}
      {cautions.length > 0 && (
        <section class="cautions">
          <h2>Take care</h2>
          <ul>
            {cautions.map(({ step, hazard, text }) => (
              <li key={`${step} ${hazard}`}>
                <strong>
                  {step}, {hazard}.
                </strong>{' '}
                {text}
              </li>
            ))}
          </ul>
        </section>
      )}
    </div>
  );
}

function Findings({
  bench,
  entry,
  findings,
  fields,
  view,
  onPressed,
}: {
  readonly bench: Bench;
  readonly entry: Entry | undefined;
  readonly findings: readonly Finding[];
  readonly fields: readonly Field[];
  readonly view: View;
  readonly onPressed: () => void;
}) {
  return (
    <FindingList
      findings={findings}
      fields={fields}
      view={view}
      {...(entry
        ? {
            onRemedy: ({ changes }) => {
              onPressed();
              bench.edit(
                changes.map(({ parameter, value }) => ({
                  path: ['parts', String(entry.index), 'parameters', parameter],
                  value,
                })),
              );
            },
          }
        : {})}
    />
  );
}
