import { useEffect, useState } from 'preact/hooks';
import { DropSign } from '../mesh/drop-sign.js';
import { meshEndings, meshJob } from '../mesh/mesh-names.js';
import type { MeshRef } from '../mesh/mesh-ref.js';
import { pageMeshes } from '../mesh/open-meshes.js';
import { type SortedFiles, sortFiles } from '../mesh/sort-files.js';
import { useFileDrop } from '../mesh/use-file-drop.js';
import { benchFragment } from '../route.js';
import { FileButton } from '../take/file-button.js';
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
  const open = async (sorted: SortedFiles): Promise<void> => {
    const opened = await openAll(sorted.meshes);
    const job = sorted.job && (await readTextFile(sorted.job));
    const [mesh] = opened.refs;
    if (job?.ok) onBegin({ job: job.text, ...(mesh ? { meshes: opened.refs } : {}) });
    else if (mesh && !job)
      onBegin({ job: meshJob(opened.refs.map(({ name }) => name)), meshes: opened.refs });
    setFailure((job?.ok === false ? job.message : undefined) ?? opened.refusal ?? sorted.refusal);
  };
  const drop = (files: readonly File[]): void => void open(sortFiles(files));
  const isOver = useFileDrop(true, drop);
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
        <FileButton
          label="Open a job file"
          accept=".yaml,.yml,.json"
          // Whatever it is called.
          onFiles={([job]) => void open({ job, meshes: [], refusal: null })}
        />
        <FileButton label="Open a mesh of your own" accept={meshEndings} multiple onFiles={drop} />
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
      <DropSign shown={isOver} />
    </div>
  );
}

/** Those that can be opened; each name once, the last of it. */
async function openAll(files: readonly File[]) {
  const refs = new Map<string, MeshRef>();
  let refusal: string | null = null;
  for (const file of files) {
    const opening = await pageMeshes.open(file, [...refs.values()]);
    if (opening.ok) refs.set(opening.ref.name, opening.ref);
    else refusal = opening.message;
  }
  return { refs: [...refs.values()], refusal };
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
