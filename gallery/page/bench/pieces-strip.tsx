import { useEffect, useId, useRef, useState } from 'preact/hooks';
import { showText } from '../../../core/part/input-problem.js';
import { parts } from '../../../generators/index.js';
import type { Plain } from '../job/document.js';
import { freeName } from '../job/free-name.js';
import { meshEndings, meshFormatWords } from '../mesh/mesh-names.js';
import { FileButton } from '../take/file-button.js';
import type { Entry } from './state.js';

export interface PiecesStripProps {
  readonly entries: readonly Entry[];
  readonly casting: string;
  readonly onChoose: (casting: string) => void;
  readonly onAdd: (entry: { readonly [key: string]: Plain }) => void;
  readonly onRemove: (index: number) => void;
  /** Names of the mesh files that are open, a further piece of one, and another from the reader's disk. */
  readonly meshes: readonly string[];
  readonly onAddMesh: (name: string) => void;
  readonly onOpenMeshes: (files: readonly File[]) => void;
}

/** What the job makes: every piece with its quantity, its castings, and a way to add and take out. */
export function PiecesStrip({ entries, casting, onChoose, onRemove, ...adding }: PiecesStripProps) {
  const chosen = entries.find((e) => e.castings.includes(casting)) ?? entries[0];
  const list = useRef<HTMLUListElement>(null);
  // On a small screen the strip is one line that scrolls: the chosen piece is to be in it.
  useEffect(() => {
    const item = list.current?.querySelector<HTMLElement>('[aria-pressed="true"]');
    if (list.current && item)
      list.current.scrollLeft = item.offsetLeft - (list.current.clientWidth - item.offsetWidth) / 2;
  }, [chosen?.index, entries.length]);
  return (
    <nav class="pieces" aria-label="Pieces of the job">
      <ul ref={list}>
        {entries.map((entry) => (
          <li key={entry.index}>
            <button
              type="button"
              class="piece"
              aria-pressed={entry === chosen}
              onClick={() => onChoose(entry.castings[0] as string)}
            >
              {entry.name || `piece ${entry.index + 1}`}
              <span class="count"> × {String(entry.raw.quantity ?? 1)}</span>
            </button>
          </li>
        ))}
      </ul>
      <div class="piece-tools">
        {chosen && chosen.castings.length > 1 && (
          <Castings entry={chosen} casting={casting} onChoose={onChoose} />
        )}
        <AddPiece entries={entries} {...adding} />
        {chosen && entries.length > 1 && (
          <button type="button" class="quiet" onClick={() => onRemove(chosen.index)}>
            Take out {chosen.name}
          </button>
        )}
      </div>
    </nav>
  );
}

function Castings({
  entry,
  casting,
  onChoose,
}: {
  readonly entry: Entry;
  readonly casting: string;
  readonly onChoose: (casting: string) => void;
}) {
  const id = useId();
  return (
    <span class="castings">
      <label for={id}>Casting </label>
      <select id={id} value={casting} onChange={(event) => onChoose(event.currentTarget.value)}>
        {entry.castings.map((name, i) => (
          <option key={name} value={name}>
            {entry.definition?.pieces?.[i]?.name ?? name}
          </option>
        ))}
      </select>
    </span>
  );
}

/** Before the name of a mesh file, where others are names of parts. */
const meshMark = 'mesh:';

function AddPiece({
  entries,
  meshes,
  onAdd,
  onAddMesh,
  onOpenMeshes,
}: Omit<PiecesStripProps, 'casting' | 'onChoose' | 'onRemove'>) {
  const id = useId();
  const [part, setPart] = useState('');
  const add = (): void => {
    if (part === '') return;
    const taken = entries.flatMap((e) => [e.name, ...e.castings]);
    if (part.startsWith(meshMark)) onAddMesh(part.slice(meshMark.length));
    else onAdd({ name: freeName(part, taken), part });
    setPart('');
  };
  return (
    <span class="add-piece">
      <label for={id}>Add </label>
      <select id={id} value={part} onChange={(event) => setPart(event.currentTarget.value)}>
        <option value="">choose a part</option>
        {parts.map(({ name, summary }) => (
          <option key={name} value={name}>
            {name}: {summary}
          </option>
        ))}
        {meshes.length > 0 && (
          <optgroup label="Open meshes">
            {meshes.map((name) => (
              <option key={name} value={`${meshMark}${name}`}>
                {showText(name)}
              </option>
            ))}
          </optgroup>
        )}
      </select>
      <button type="button" class="quiet" disabled={part === ''} onClick={add}>
        Put it in
      </button>
      <FileButton
        class="quiet"
        label="Open a mesh"
        accept={meshEndings}
        multiple
        describedBy={`${id}-formats`}
        onFiles={onOpenMeshes}
      />
      <span id={`${id}-formats`} class="unseen">
        {meshFormatWords}
      </span>
    </span>
  );
}
