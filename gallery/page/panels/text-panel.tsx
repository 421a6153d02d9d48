import { useEffect, useId, useState } from 'preact/hooks';
import { formatInput } from '../../../core/part/input-problem.js';
import type { Bench } from '../bench/bench.js';
import type { Problem } from '../job/problem.js';

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
  const [typed, setTyped] = useState(text);
  useEffect(() => setTyped(text), [text]);
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
        onInput={(event) => setTyped(event.currentTarget.value)}
      />
      <p class="row">
        <button type="button" class="chief" disabled={!isChanged} onClick={() => bench.setText(typed)}>
          Take this text
        </button>
        <button type="button" disabled={!isChanged} onClick={() => setTyped(text)}>
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
