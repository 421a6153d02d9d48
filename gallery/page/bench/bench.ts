import type { Job } from '../../../core/job/job.js';
import type { PartEntry } from '../../../core/pair/mate/mate-entry.js';
import { showText } from '../../../core/part/input-problem.js';
import type { LengthUnit } from '../../../core/units/index.js';
import { addEntry, type Plain, removeEntry, setValues } from '../job/document.js';
import { keepWork, keptWork, type Shelf } from '../job/keep.js';
import type { Path } from '../job/path.js';
import { switchUnits, textsWithBareNumbers } from '../job/switch-units.js';
import type { MeshRef } from '../mesh/mesh-ref.js';
import { pageMeshes } from '../mesh/open-meshes.js';
import { meshEntry, type Placed, placeMesh, placeMeshFor } from '../mesh/place-mesh.js';
import type { SectionPlane } from '../view/content.js';
import type { NamedText, ShownState, Sources, WrittenFile } from '../work/protocol.js';
import { readSources } from '../work/read-sources.js';
import { BenchWork } from './bench-work.js';
import { noHistory, remembered, stepped } from './history.js';
import { type BenchState, draftOf, entryOf, type Paint, startOf } from './state.js';

/** ms after the last change until the work is kept. */
const keepAfter = 400;

export interface Change {
  readonly path: Path;
  /** Undefined takes the key out. */
  readonly value: Plain | undefined;
}

/** The work on one job: its text is the only source, all else follows from it. Tells its listeners of every change. */
export class Bench {
  #state: BenchState;
  readonly #listeners = new Set<() => void>();
  readonly #shelf: Shelf | undefined;
  readonly #work: BenchWork;
  #history = noHistory;
  /** The text before a drag, which is one change when it ends. */
  #beforeDrag: Sources | undefined;
  #keepTimer: ReturnType<typeof setTimeout> | undefined;
  /** Ids of the mesh files that the browser keeps. */
  #keptMeshes: string | undefined;

  constructor(sources: Sources, shelf?: Shelf) {
    this.#shelf = shelf;
    // Work kept from before can be had back from here, too.
    const before = keptWork(shelf);
    if (before && JSON.stringify(before) !== JSON.stringify(sources))
      this.#history = remembered(noHistory, before);
    this.#state = { ...startOf(withOpenMeshes(sources)), canUndo: this.#history.past.length > 0 };
    this.#work = new BenchWork(this);
    addEventListener('pagehide', this.#keep);
    document.addEventListener('visibilitychange', this.#keep);
    this.#begin();
  }

  get state(): BenchState {
    return this.#state;
  }

  /** For what works for the bench. */
  set = (change: Partial<BenchState>): void => {
    this.#state = { ...this.#state, ...change };
    for (const listener of this.#listeners) listener();
  };

  subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  };

  /** Another job in place of this one; this one can be had back by undoing. */
  open(sources: Sources): void {
    this.#commit(sources);
    this.set({
      casting: this.#state.draft.entries[0]?.castings[0] ?? '',
      shown: 'part',
      section: null,
      sketched: null,
      made: null,
    });
    this.#begin();
  }

  /** A shop profile or pour log beside the job; undefined takes it away. */
  setBeside(kind: 'shop' | 'log', file: NamedText | undefined): void {
    const { [kind]: _before, ...others } = this.#state.draft.sources;
    this.#commit(file ? { ...others, [kind]: file } : others);
    this.#begin();
  }

  /** While a size is dragged: a coarse picture at once, nothing else. */
  drag(changes: readonly Change[]): void {
    this.#beforeDrag ??= this.#state.draft.sources;
    this.#redraft(this.#changed(changes));
    this.#work.sketch();
  }

  edit(changes: readonly Change[]): void {
    this.setText(this.#changed(changes));
  }

  setText(job: string): void {
    // Set to what it is, it is no change.
    if (job === (this.#beforeDrag ?? this.#state.draft.sources).job) {
      this.#endDrag();
      return;
    }
    this.#commit({ ...this.#state.draft.sources, job });
    this.#begin();
  }

  addEntry(entry: { readonly [key: string]: Plain }): void {
    const { sources, entries } = this.#state.draft;
    this.setText(addEntry(sources.job, entry));
    const added = this.#state.draft.entries[entries.length];
    if (added) this.choose(added.castings[0] as string);
  }

  /** Opens mesh files: each is one that the job misses, or a newer one of its name, or comes in as a piece. */
  async openMeshes(files: readonly File[]): Promise<void> {
    for (const file of files)
      await this.#openMesh(file, (ref) =>
        placeMesh(this.#state.draft.sources, this.#state.draft.entries, ref),
      );
  }

  /** Opens a mesh file for one that the job names; where it has another name the job gets that, at `path` or throughout. */
  async openMeshFor(instead: string | undefined, file: File, path?: Path): Promise<void> {
    await this.#openMesh(file, (ref) =>
      placeMeshFor(this.#state.draft.sources, this.#state.draft.entries, ref, instead, path),
    );
  }

  /** A further piece of a mesh file that is open. */
  addMesh(name: string): void {
    const { entries } = this.#state.draft;
    this.addEntry(
      meshEntry(
        name,
        entries.flatMap((e) => [e.name, ...e.castings]),
      ),
    );
  }

  removeEntry(index: number): void {
    this.setText(removeEntry(this.#state.draft.sources.job, index));
  }

  /** Its castings are called after it. */
  rename(index: number, name: string): void {
    const piece = this.#state.draft.entries[index]?.castings.indexOf(this.#state.casting) ?? 0;
    this.edit([{ path: ['parts', String(index), 'name'], value: name }]);
    const renamed = this.#state.draft.entries[index]?.castings;
    if (renamed) this.choose(renamed[Math.max(0, piece)] as string);
  }

  /** The same sizes in other units. @returns whether it could be done */
  switchUnits(to: LengthUnit): boolean {
    const { sources, job } = this.#state.draft;
    if (job === null || textsWithBareNumbers(job).length > 0) return false;
    const text = switchUnits(sources.job, job.units, to);
    const after = readSources({ ...sources, job: text });
    if (!after.ok || JSON.stringify(withoutUnits(after.job)) !== JSON.stringify(withoutUnits(job)))
      return false;
    this.setText(text);
    return true;
  }

  undo(): void {
    this.#travel('back');
  }

  redo(): void {
    this.#travel('forward');
  }

  choose(casting: string): void {
    if (casting === this.#state.casting) return;
    this.set({ casting, section: null });
    this.#work.sketch();
  }

  show(shown: ShownState): void {
    this.set({ shown });
    this.#work.sketch();
  }

  look(how: { readonly dimensions?: boolean; readonly paint?: Paint; readonly plate?: number }): void {
    this.set(how);
  }

  cut(section: SectionPlane | null): void {
    this.set({ section });
  }

  /** The mate that is to turn with the chosen gear; null where none is looked at. */
  setMate(entry: PartEntry | null): void {
    const { mate } = this.#state;
    if (JSON.stringify(mate?.entry) === JSON.stringify(entry ?? undefined)) return;
    // The last one's mesh stays until the new one's is there.
    const begins = mate === null && entry !== null;
    this.set({
      mate: entry && { entry, mesh: mate?.mesh ?? null },
      ...(begins ? { shown: 'part', section: null } : {}),
    });
    if (begins) this.#work.sketch();
    if (!entry) return;
    this.#work.sketchMate(entry);
  }

  /** A frame with the last change in it is drawn, at a time of `performance.now()`. */
  painted(now: number): void {
    this.#work.painted(now);
  }

  tell(notice: string | null): void {
    this.set({ notice });
  }

  /** @throws Error when the job has changed since it was made */
  files(paths: readonly string[] | 'zip'): Promise<readonly WrittenFile[]> {
    return this.#work.files(paths);
  }

  close(): void {
    clearTimeout(this.#keepTimer);
    this.#keep();
    removeEventListener('pagehide', this.#keep);
    document.removeEventListener('visibilitychange', this.#keep);
    this.#work.close();
  }

  async #openMesh(file: File, place: (ref: MeshRef) => Placed): Promise<void> {
    const opening = await pageMeshes.open(file, this.#state.draft.sources.meshes);
    if (!opening.ok) {
      this.tell(opening.message);
      return;
    }
    const before = this.#state.draft.entries.length;
    const { sources, how } = place(opening.ref);
    if (how === 'unreadable') {
      this.tell('The job’s text has to be mended before a mesh can be put into it: see Findings.');
      return;
    }
    this.#commit(sources);
    this.#begin();
    const added = how === 'added' ? this.#state.draft.entries[before] : undefined;
    if (added) this.choose(added.castings[0] as string);
    if (how === 'replaced') this.tell(`${showText(opening.ref.name)} was read anew.`);
  }

  #changed(changes: readonly Change[]): string {
    return setValues(this.#state.draft.sources.job, changes);
  }

  #redraft(job: string): void {
    const { sources, version } = this.#state.draft;
    this.set({ draft: draftOf({ ...sources, job }, version + 1), refused: null });
  }

  #commit(sources: Sources): void {
    this.#history = remembered(this.#history, this.#beforeDrag ?? this.#state.draft.sources);
    this.#take(sources);
  }

  /** A drag that ends where it began leaves nothing behind. */
  #endDrag(): void {
    const before = this.#beforeDrag;
    if (before === undefined) return;
    this.#take(before);
    this.#begin();
  }

  #take(sources: Sources): void {
    this.#beforeDrag = undefined;
    const draft = draftOf(withOpenMeshes(sources), this.#state.draft.version + 1);
    const casting = entryOf({ draft, casting: this.#state.casting });
    const isThere = casting?.castings.includes(this.#state.casting);
    const { past, future } = this.#history;
    this.set({
      draft,
      refused: null,
      notice: null,
      ...(isThere ? {} : { casting: casting?.castings[0] ?? '', section: null }),
      canUndo: past.length > 0,
      canRedo: future.length > 0,
    });
  }

  #travel(way: 'back' | 'forward'): void {
    const step = stepped(this.#history, way, this.#beforeDrag ?? this.#state.draft.sources);
    if (!step) return;
    this.#history = step.history;
    this.#take(step.sources);
    this.#begin();
  }

  /** Has the present text sketched, made and kept. */
  #begin(): void {
    this.#work.begin();
    clearTimeout(this.#keepTimer);
    this.#keepTimer = setTimeout(this.#keep, keepAfter);
  }

  /** Also as the page goes, so that the last change is not lost. */
  readonly #keep = (): void => {
    const { sources } = this.#state.draft;
    if (this.#shelf && !keepWork(this.#shelf, sources))
      this.tell('This browser keeps nothing for the page: save the job as a file before you leave.');
    void this.#keepMeshes(sources.meshes ?? []);
  };

  async #keepMeshes(refs: readonly MeshRef[]): Promise<void> {
    const ids = refs.map(({ id }) => id).join();
    // Another window may have put its own in their place.
    if (ids === '' && this.#keptMeshes === '') return;
    this.#keptMeshes = ids;
    if (!(await pageMeshes.keep(refs)) && refs.length > 0)
      this.tell('This browser keeps no mesh files for the page: after a reload, open them again.');
  }
}

const withoutUnits = ({ units: _, textUnit: __, ...job }: Job): Omit<Job, 'units' | 'textUnit'> => job;

/** Without mesh files that were let go of: the job then says that they are not open. */
function withOpenMeshes(sources: Sources): Sources {
  if (sources.meshes === undefined || sources.meshes.every(pageMeshes.has)) return sources;
  return { ...sources, meshes: sources.meshes.filter(pageMeshes.has) };
}
