import { useEffect, useMemo, useState } from 'preact/hooks';
import type { View } from '../../../core/report/format.js';
import { DropSign } from '../mesh/drop-sign.js';
import { MissingMeshes } from '../mesh/missing-meshes.js';
import { missingMeshes } from '../mesh/place-mesh.js';
import { sortFiles } from '../mesh/sort-files.js';
import { useFileDrop } from '../mesh/use-file-drop.js';
import { pageShelf } from '../page-shelf.js';
import { isToothed } from '../pair/toothed-member.js';
import { FindingsPanel } from '../panels/findings-panel.js';
import { MatePanel } from '../panels/mate-panel.js';
import { MouldPanel } from '../panels/mould-panel.js';
import { ShopPanel } from '../panels/shop-panel.js';
import { SizesPanel } from '../panels/sizes-panel.js';
import { TextPanel } from '../panels/text-panel.js';
import { readTextFile } from '../take/read-text-file.js';
import { TakePanel } from '../take/take-panel.js';
import type { Theme } from '../theme.js';
import type { Sources } from '../work/protocol.js';
import { Bench } from './bench.js';
import { countOf, findingsOf, jobFindings } from './job-findings.js';
import { Lookout } from './lookout.js';
import { NumbersBar } from './numbers-bar.js';
import { PiecesStrip } from './pieces-strip.js';
import { SceneSink } from './scene-sink.js';
import { entryOf, isCurrent } from './state.js';
import { type Tab, Tabs } from './tabs.js';
import { Toolbar } from './toolbar.js';
import { useBench } from './use-bench.js';
import { useUndoKeys } from './use-undo-keys.js';
import '../style/bench.css';
import '../style/form.css';

export interface BenchPlaceProps {
  readonly sources: Sources;
  readonly theme: Theme;
  /** Whether the reader is here, not at the wall. */
  readonly here: boolean;
}

/** Where a job is worked on: the piece in sight, its numbers under it, its sizes beside it. */
export function BenchPlace({ sources, theme, here }: BenchPlaceProps) {
  const [bench] = useState(() => new Bench(sources, pageShelf()));
  useEffect(() => () => bench.close(), [bench]);
  useUndoKeys(bench);
  const isOver = useFileDrop(here, (files) => void openDropped(bench, files));
  const [running] = useState(() => new SceneSink());
  const state = useBench(bench);
  const { draft, made, casting, progress } = state;
  const view = useMemo(
    (): View => ({
      lengthUnit: draft.raw.units === 'in' ? 'in' : 'mm',
      degrees: draft.raw.degrees === 'F' ? 'F' : 'C',
    }),
    [draft.raw.units, draft.raw.degrees],
  );
  const found = useMemo(() => jobFindings(state), [draft, state.refused, made]);
  const entry = entryOf(state);
  const missing = useMemo(() => missingMeshes(draft.entries, draft.sources), [draft]);
  const tabs: readonly Tab[] = [
    ...(entry
      ? [
          {
            id: 'sizes',
            name: 'Sizes',
            content: () => (
              <SizesPanel
                key={entry.index}
                bench={bench}
                entry={entry}
                meshes={(draft.sources.meshes ?? []).map(({ name }) => name)}
                view={view}
                problems={found.problems}
                findings={findingsOf(found, casting)}
              />
            ),
          },
          {
            id: 'mould',
            name: 'Metal',
            content: () => (
              <MouldPanel
                bench={bench}
                raw={draft.raw}
                entry={entry}
                ownAlloys={draft.job?.shop.alloys ?? []}
                view={view}
                problems={found.problems}
              />
            ),
          },
        ]
      : []),
    ...(entry && isToothed(entry.part)
      ? [
          {
            id: 'mate',
            name: 'Mate',
            content: () => <MatePanel bench={bench} state={state} unit={view.lengthUnit} running={running} />,
          },
        ]
      : []),
    {
      id: 'findings',
      name: 'Findings',
      count: countOf(found),
      content: () => (
        <FindingsPanel
          bench={bench}
          entries={draft.entries}
          problems={found.problems}
          groups={found.groups}
          cautions={made?.reply.summary.cautions ?? []}
          view={view}
        />
      ),
    },
    {
      id: 'shop',
      name: 'Shop',
      content: () => (
        <ShopPanel
          bench={bench}
          raw={draft.raw}
          profile={draft.sources.shop?.fileName}
          view={view}
          problems={found.problems}
        />
      ),
    },
    {
      id: 'job',
      name: 'Job text',
      content: () => <TextPanel bench={bench} text={draft.sources.job} problems={found.problems} />,
    },
    { id: 'take', name: 'Take home', content: () => <TakePanel bench={bench} state={state} /> },
  ];
  return (
    <div class="bench">
      <h1 class="unseen">{String(draft.raw.title ?? draft.raw.job ?? 'Job')}</h1>
      <div class="sight">
        <Toolbar bench={bench} state={state} view={view} />
        <PiecesStrip
          entries={draft.entries}
          casting={casting}
          onChoose={(name) => bench.choose(name)}
          onAdd={(added) => bench.addEntry(added)}
          onRemove={(index) => bench.removeEntry(index)}
          meshes={(draft.sources.meshes ?? []).map(({ name }) => name)}
          onAddMesh={(name) => bench.addMesh(name)}
          onOpenMeshes={(files) => void bench.openMeshes(files)}
        />
        <MissingMeshes bench={bench} names={missing} />
        <Lookout bench={bench} state={state} theme={theme} view={view} running={running} />
        <NumbersBar
          summary={made?.reply.summary ?? null}
          casting={casting}
          view={view}
          stale={!isCurrent(state)}
          refused={(draft.refusal ?? state.refused) !== null}
          progress={progress}
        />
      </div>
      <div class="work">
        <ShopHint sources={draft.sources} shop={draft.raw.shop} />
        <Notice text={state.notice} onClose={() => bench.tell(null)} />
        <Tabs tabs={tabs} label="Work on the job" />
      </div>
      <DropSign shown={isOver} />
    </div>
  );
}

/** A job and, dropped with it or by themselves, meshes. */
async function openDropped(bench: Bench, files: readonly File[]): Promise<void> {
  const { job, meshes, refusal } = sortFiles(files);
  if (job) {
    const reading = await readTextFile(job);
    if (reading.ok) bench.open({ ...bench.state.draft.sources, job: reading.text });
    else bench.tell(reading.message);
  }
  await bench.openMeshes(meshes);
  if (refusal) bench.tell(refusal);
}

/** A page cannot look into folders: what the job names there is to be opened by hand. */
function ShopHint({ sources, shop }: { readonly sources: Sources; readonly shop: unknown }) {
  if (typeof shop !== 'string' || sources.shop) return null;
  return (
    <p class="notice-line">
      The job names a shop profile, {shop}: open it under Take home. Until then the numbers are for a usual
      shop.
    </p>
  );
}

function Notice({ text, onClose }: { readonly text: string | null; readonly onClose: () => void }) {
  return (
    <div class="notice" role="status">
      {text !== null && (
        <p>
          {text}{' '}
          <button type="button" class="quiet" onClick={onClose}>
            Close
          </button>
        </p>
      )}
    </div>
  );
}
