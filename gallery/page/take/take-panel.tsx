import { useState } from 'preact/hooks';
import { partFiles, plateFiles, summaryFile, travellerFile } from '../../../core/job/output-names.js';
import type { Summary } from '../../../core/job/summary.js';
import { showText } from '../../../core/part/input-problem.js';
import { namesOf } from '../../../core/report/findings.js';
import type { Bench } from '../bench/bench.js';
import { type BenchState, isCurrent } from '../bench/state.js';
import { linkFragment, longestLink } from '../job/share.js';
import { meshPlaces } from '../mesh/place-mesh.js';
import type { Sources } from '../work/protocol.js';
import { jobFileNameOf } from './job-file-name.js';
import { OpenFiles } from './open-files.js';
import { saveFile } from './save-file.js';
import { TravellerSheet } from './traveller-sheet.js';

export interface TakePanelProps {
  readonly bench: Bench;
  readonly state: BenchState;
}

/** All that goes to the bench: files, papers, the job itself, a link. */
export function TakePanel({ bench, state }: TakePanelProps) {
  const [busy, setBusy] = useState(false);
  const [traveller, setTraveller] = useState<string | null>(null);
  const isReady = isCurrent(state) && state.made?.reply.final === true;
  const summary = isReady ? (state.made?.reply.summary ?? null) : null;

  const get = async (paths: readonly string[] | 'zip', use: (path: string, bytes: Uint8Array) => void) => {
    // Buttons keep the focus while they are busy; they only do nothing.
    if (busy) return;
    setBusy(true);
    try {
      for (const { path, bytes } of await bench.files(paths)) use(path, bytes);
    } catch (error) {
      bench.tell(error instanceof Error ? error.message : String(error));
    } finally {
      setBusy(false);
    }
  };
  const save = (path: string): void => {
    void get([path], (at, bytes) => saveFile(savedName(at), bytes));
  };
  return (
    <div class="take">
      <section>
        <h2>Papers and files</h2>
        {summary === null ? (
          <p class="soft" role="status">
            {state.refused || state.draft.refusal
              ? 'The job cannot be made as it is: see Findings.'
              : 'Filling and freezing are being worked out; the files come after it.'}
          </p>
        ) : (
          <>
            <p class="row">
              <button
                type="button"
                class="chief"
                aria-disabled={busy}
                onClick={() =>
                  get([travellerFile], (_, bytes) => setTraveller(new TextDecoder().decode(bytes)))
                }
              >
                Traveller: look and print
              </button>
              <button
                type="button"
                aria-disabled={busy}
                onClick={() => get('zip', (path, bytes) => saveFile(path, bytes, 'application/zip'))}
              >
                Everything as one folder (zip)
              </button>
            </p>
            <NotMade names={(summary.notMade ?? []).map((p) => p.name)} />
            <Files summary={summary} casting={state.casting} busy={busy} onSave={save} />
          </>
        )}
      </section>
      <section>
        <h2>The job</h2>
        <p class="soft">
          The command line makes the same from the same job: <code>patternwright plate job.yaml</code>
        </p>
        <p class="row">
          <button
            type="button"
            onClick={() =>
              saveFile(jobFileNameOf(state.draft.raw), state.draft.sources.job, 'application/yaml')
            }
          >
            Save the job
          </button>
          <CopyLink sources={state.draft.sources} onTell={(text) => bench.tell(text)} />
        </p>
        <MeshHint names={meshPlaces(state.draft.entries).map(({ name }) => name)} />
        <OpenFiles bench={bench} sources={state.draft.sources} />
      </section>
      {traveller !== null && <TravellerSheet html={traveller} onClose={() => setTraveller(null)} />}
    </div>
  );
}

/** What else the command line needs. */
function MeshHint({ names }: { readonly names: readonly string[] }) {
  const all = [...new Set(names)];
  if (all.length === 0) return null;
  const told = all.slice(0, mostTold).map(showText).join(', ');
  const more = all.length > mostTold ? ` and ${all.length - mostTold} more` : '';
  return (
    <p class="soft told-names">
      The job holds the names of its mesh files alone; neither its file nor a link brings them along. Where
      the job goes, they are to lie beside it: {told}
      {more}.
    </p>
  );
}

const mostTold = 6;

/** In one folder of downloads, names of several castings must differ. */
const savedName = (path: string): string => path.replaceAll('/', '-');

const rowsOf = (name: string): readonly (readonly [string, string])[] => {
  const its = partFiles(name);
  return [
    ['Gated pattern, STL', its.gated],
    ['Gated pattern, 3MF', its.gated3mf],
    ['Pattern, STL', its.pattern],
    ['Casting, STL', its.casting],
    ['Finished part, STL', its.part],
    ['Drawing, SVG', its.drawing],
  ];
};

/** What the files are without. */
function NotMade({ names }: { readonly names: readonly string[] }) {
  if (names.length === 0) return null;
  return <p role="status">Left out, since it cannot be made (see Findings): {namesOf(names, mostTold)}.</p>;
}

interface FilesProps {
  readonly summary: Summary;
  readonly casting: string;
  readonly busy: boolean;
  readonly onSave: (path: string) => void;
}

function Files({ summary, casting, busy, onSave }: FilesProps) {
  const isLeftOut = summary.notMade?.some((p) => p.name === casting);
  const told = isLeftOut ? undefined : (summary.parts.find((p) => p.name === casting) ?? summary.parts[0]);
  const rows: readonly (readonly [string, string])[] = [
    ...(told ? rowsOf(told.name) : []),
    ...summary.plates.flatMap(({ name }): readonly (readonly [string, string])[] => [
      [`${name}, 3MF`, plateFiles(name).threeMf],
      [`${name}, STL`, plateFiles(name).stl],
      [`${name}, plan, SVG`, plateFiles(name).plan],
    ]),
    ['Every number, JSON', summaryFile],
  ];
  return (
    <ul class="files" aria-label={told ? `Files of ${told.name} and of the plates` : 'Files of the plates'}>
      {rows.map(([label, path]) => (
        <li key={path}>
          <button
            type="button"
            class="quiet"
            aria-disabled={busy}
            data-path={path}
            onClick={() => onSave(path)}
          >
            {label}
          </button>
        </li>
      ))}
    </ul>
  );
}

function CopyLink({
  sources: { job, shop, log, meshes = [] },
  onTell,
}: {
  readonly sources: Sources;
  readonly onTell: (text: string) => void;
}) {
  const copy = async (): Promise<void> => {
    const link = `${location.href.replace(/#.*$/, '')}${linkFragment(job)}`;
    if (link.length > longestLink) {
      onTell('This job is too long for a link: save it as a file and send that.');
      return;
    }
    try {
      await navigator.clipboard.writeText(link);
      const beside = shop || log ? ' What you opened beside it, shop profile or pour log, is not in it.' : '';
      const mesh = meshes.length > 0 ? ' It holds no mesh: whoever opens it opens the mesh file, too.' : '';
      onTell(`The link is on the clipboard. It holds the job; nothing was sent anywhere.${beside}${mesh}`);
    } catch {
      onTell(link);
    }
  };
  return (
    <button type="button" onClick={copy}>
      Copy a link to it
    </button>
  );
}
