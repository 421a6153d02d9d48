import { useEffect, useId, useRef, useState } from 'preact/hooks';
import { formatInput } from '../../../core/part/input-problem.js';
import type { Bench } from '../bench/bench.js';
import type { Problem } from '../job/problem.js';

/** What was typed and not yet taken, of which text: it is there again after a look at another panel. */
const drafts = new WeakMap<Bench, { readonly of: string; readonly typed: string }>();

/** The job as the command line has it: its text, to read and to write. */
export function TextPanel({
  bench,
  text,
  problems,
}: {
  readonly bench: Bench;
  readonly text: string;
  readonly problems: readonly Problem[];
}) {
  const id = useId();
  const draft = drafts.get(bench);
  const [typed, setTyped] = useState(draft?.of === text ? draft.typed : text);
  const shown = useRef(text);
  useEffect(() => {
    // Not as the panel opens: that would take back what was typed before its first picture.
    if (shown.current !== text) setTyped(text);
    shown.current = text;
  }, [text]);
  const write = (next: string): void => {
    drafts.set(bench, { of: text, typed: next });
    setTyped(next);
  };
  const isChanged = typed !== text;
  return (
    <div class="job-text">
      <label for={id}>The job’s text (YAML)</label>
      <textarea
        id={id}
        value={typed}
        spellcheck={false}
        rows={24}
        aria-invalid={problems.length > 0}
        aria-describedby={`${id}-problems`}
        onInput={(event) => write(event.currentTarget.value)}
      />
      <p class="row">
        <button type="button" class="chief" disabled={!isChanged} onClick={() => bench.setText(typed)}>
          Take this text
        </button>
        <button type="button" disabled={!isChanged} onClick={() => write(text)}>
          Back to the job’s
        </button>
      </p>
      <ProblemList id={`${id}-problems`} problems={problems} />
    </div>
  );
}

/** What is wrong with the text, with its place. */
export function ProblemList({
  id,
  problems,
}: {
  readonly id?: string;
  readonly problems: readonly Problem[];
}) {
  return (
    <ul class="problems" {...(id === undefined ? {} : { id })}>
      {problems.map((p) => (
        <li key={`${p.path.join('.')} ${p.line} ${p.message}`}>
          {p.file === undefined ? '' : `${p.file}, `}
          {p.line === undefined ? '' : `line ${p.line}: `}
          {formatInput({ ...p, got: '' })}
        </li>
      ))}
    </ul>
  );
}
