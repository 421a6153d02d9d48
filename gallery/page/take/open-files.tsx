import { useId } from 'preact/hooks';
import { logFileName } from '../../../core/log/file-name.js';
import type { Bench } from '../bench/bench.js';
import type { Sources } from '../work/protocol.js';
import { readTextFile } from './read-text-file.js';

/** Opens a job, and beside it the shop's profile and its pour log. */
export function OpenFiles({ bench, sources }: { readonly bench: Bench; readonly sources: Sources }) {
  const take = async (file: File, use: (text: string) => void): Promise<void> => {
    const reading = await readTextFile(file);
    if (reading.ok) use(reading.text);
    else bench.tell(reading.message);
  };
  return (
    <>
      <Opener
        label="Open a job"
        help="a plate job, YAML"
        accept=".yaml,.yml,.json"
        onFile={(file) => take(file, (job) => bench.open({ ...sources, job }))}
      />
      <Opener
        label="Open a shop profile"
        help={sources.shop ? sources.shop.fileName : 'kiln, flasks, prices: YAML'}
        accept=".yaml,.yml"
        onFile={(file) => take(file, (text) => bench.setBeside('shop', { fileName: file.name, text }))}
        {...(sources.shop ? { onRemove: () => bench.setBeside('shop', undefined) } : {})}
      />
      <Opener
        label="Open a pour log"
        help={sources.log ? sources.log.fileName : logFileName}
        accept=".jsonl"
        onFile={(file) => take(file, (text) => bench.setBeside('log', { fileName: file.name, text }))}
        {...(sources.log ? { onRemove: () => bench.setBeside('log', undefined) } : {})}
      />
    </>
  );
}

interface OpenerProps {
  readonly label: string;
  readonly help: string;
  readonly accept: string;
  readonly onFile: (file: File) => void;
  readonly onRemove?: () => void;
}

function Opener({ label, help, accept, onFile, onRemove }: OpenerProps) {
  const id = useId();
  const take = (event: Event): void => {
    const input = event.currentTarget as HTMLInputElement;
    const file = input.files?.[0];
    if (file) onFile(file);
    // The same file, changed on disk, can be opened again.
    input.value = '';
  };
  return (
    <p class="opener">
      <label class="button">
        {label}
        <input type="file" class="unseen" accept={accept} aria-describedby={`${id}-help`} onChange={take} />
      </label>
      <span id={`${id}-help`} class="soft">
        {help}
      </span>
      {onRemove && (
        <button type="button" class="quiet" onClick={onRemove}>
          Put it away
        </button>
      )}
    </p>
  );
}
