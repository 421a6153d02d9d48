import { useEffect, useState } from 'preact/hooks';
import { benchFragment } from '../route.js';
import { readTextFile } from '../take/read-text-file.js';
import type { Sources } from '../work/protocol.js';
import type { WallData, WallPiece } from './wall-data.js';
import { wallData } from './wall-data.js';
import '../style/wall.css';

export interface WallProps {
  readonly onBegin: (sources: Sources) => void;
  /** Why a link could not be opened. */
  readonly problem: { readonly message: string; readonly remedy: string } | null;
  /** Whether there is work kept from before. */
  readonly kept: boolean;
}

/** The ropewalk's finished pieces, each a way in. */
export function Wall({ onBegin, problem, kept }: WallProps) {
  const [data, setData] = useState<WallData>();
  const [failure, setFailure] = useState<string | null>(null);
  useEffect(() => {
    wallData().then(setData, () => setFailure('The pictures could not be loaded. Load the page again.'));
  }, []);
  const open = async (event: Event): Promise<void> => {
    const input = event.currentTarget as HTMLInputElement;
    const file = input.files?.[0];
    if (!file) return;
    const reading = await readTextFile(file);
    if (reading.ok) onBegin({ job: reading.text });
    else setFailure(reading.message);
    input.value = '';
  };
  return (
    <div class="wall">
      <h1>Patterns for casting</h1>
      <p class="lead">
        Choose a piece, give it your sizes, look at it in all its states, and take home the pattern to print,
        already grown for the metal’s contraction, with sprue, pour cup and vents, and the paper that goes
        with it through the shop.
      </p>
      {(problem || failure) && (
        <p class="alarm" role="alert">
          {problem ? `${problem.message} ${problem.remedy}` : failure}
        </p>
      )}
      <div class="ways row">
        {kept && (
          <a class="button chief" href={benchFragment}>
            Go on with your work
          </a>
        )}
        <label class="button">
          Open a job file
          <input type="file" class="unseen" accept=".yaml,.yml,.json" onChange={open} />
        </label>
        {data?.jobs.map((job) => (
          <button key={job.title} type="button" onClick={() => onBegin({ job: job.text })}>
            The whole of: {job.title}
          </button>
        ))}
      </div>
      <h2>From the museum ropewalk</h2>
      <p class="soft">
        A volunteer-run ropewalk with its hand-cranked rope-laying machine, sheds and skiffs. The museum, its
        people and its sizes are invented.
      </p>
      <ul class="tiles">
        {data?.pieces.map((piece) => (
          <Tile key={piece.name} piece={piece} onBegin={onBegin} />
        ))}
      </ul>
    </div>
  );
}

function Tile({ piece, onBegin }: { readonly piece: WallPiece; readonly onBegin: WallProps['onBegin'] }) {
  return (
    <li class="tile">
      <button type="button" data-piece={piece.name} onClick={() => onBegin({ job: piece.job })}>
        <img src={piece.picture} alt="" width="800" height="600" loading="lazy" decoding="async" />
        <span class="tile-title">{piece.title}</span>
        <span class="tile-caption">{piece.caption}</span>
      </button>
    </li>
  );
}
