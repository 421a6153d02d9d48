import { useId } from 'preact/hooks';
import { logFileName } from '../../../core/log/file-name.js';
import type { Bench } from '../bench/bench.js';
import { meshEndings, meshFormatWords } from '../mesh/mesh-names.js';
import type { Sources } from '../work/protocol.js';
import { FileButton } from './file-button.js';
import { readTextFile } from './read-text-file.js';

/** Opens a job, and beside it meshes, the shop's profile and its pour log. */
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
        onFiles={([file]) => file && take(file, (job) => bench.open({ ...sources, job }))}
      />
      <Opener
        label="Open a mesh"
        help={`a part of your own: ${meshFormatWords}`}
        accept={meshEndings}
        multiple
        onFiles={(files) => void bench.openMeshes(files)}
      />
      <Opener
        label="Open a shop profile"
        help={sources.shop ? sources.shop.fileName : 'kiln, flasks, prices: YAML'}
        accept=".yaml,.yml"
        onFiles={([file]) =>
          file && take(file, (text) => bench.setBeside('shop', { fileName: file.name, text }))
        }
        {...(sources.shop ? { onRemove: () => bench.setBeside('shop', undefined) } : {})}
      />
      <Opener
        label="Open a pour log"
        help={sources.log ? sources.log.fileName : logFileName}
        accept=".jsonl"
        onFiles={([file]) =>
          file && take(file, (text) => bench.setBeside('log', { fileName: file.name, text }))
        }
        {...(sources.log ? { onRemove: () => bench.setBeside('log', undefined) } : {})}
      />
    </>
  );
}

interface OpenerProps {
  readonly label: string;
  readonly help: string;
  readonly accept: string;
  readonly multiple?: boolean;
  readonly onFiles: (files: readonly File[]) => void;
  readonly onRemove?: () => void;
}

function Opener({ help, onRemove, ...button }: OpenerProps) {
  const id = useId();
  return (
    <p class="opener">
      <FileButton {...button} describedBy={`${id}-help`} />
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
