import type { PartEntry } from '../../../core/pair/mate/mate-entry.js';
import type { LengthUnit } from '../../../core/units/index.js';
import { addEntry, newJob, type Plain, removeEntry, setValues } from '../job/document.js';
import { keepWork, keptWork, type Shelf } from '../job/keep.js';
import type { Path } from '../job/path.js';
import { switchUnits } from '../job/switch-units.js';
import type { SectionPlane } from '../view/content.js';
import { type DeskReply, MakeDesk } from '../work/make-desk.js';
import type { NamedText, ShownState, SketchReply, Sources, WrittenFile } from '../work/protocol.js';
import { readSources } from '../work/read-sources.js';
import { SketchDesk } from '../work/sketch-desk.js';
import { type BenchState, draftOf, entryOf, type Paint } from './state.js';

/** How many changes can be taken back. */
const mostUndone = 200;
/** ms after the last change until the job is made in full, and until it is kept. */
const makeAfter = 120;
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
  readonly #sketches = new SketchDesk((reply) => this.#sketchCame(reply));
  readonly #makes = new MakeDesk((reply) => this.#makeCame(reply));
  /** Begun when a mate is first looked at. */
  #mates: SketchDesk | undefined;
  #past: Sources[] = [];
  #future: Sources[] = [];
  /** The text before a drag, which is one change when it ends. */
  #beforeDrag: Sources | undefined;
  #orders = new Map<number, number>();
  #sketchId = 0;
  #changedAt: number | undefined;
  #making: { readonly id: number; readonly version: number } | undefined;
  #makeTimer: ReturnType<typeof setTimeout> | undefined;
  #keepTimer: ReturnType<typeof setTimeout> | undefined;

  constructor(sources: Sources, shelf?: Shelf) {
    this.#shelf = shelf;
    // Work kept from before can be had back from here, too.
    const before = keptWork(shelf);
    if (before && JSON.stringify(before) !== JSON.stringify(sources)) this.#past = [before];
    this.#state = { ...startOf(sources), canUndo: this.#past.length > 0 };
    addEventListener('pagehide', this.#keep);
    document.addEventListener('visibilitychange', this.#keep);
    this.#work(true);
  }

  get state(): BenchState {
    return this.#state;
  }

  subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  };

  /** Another job in place of this one; this one can be had back by undoing. */
  open(sources: Sources): void {
    this.#commit(sources);
    this.#set({ casting: this.#state.draft.entries[0]?.castings[0] ?? '', shown: 'part', section: null });
    this.#work(true);
  }

  openPart(part: string): void {
    this.open({ ...this.#state.draft.sources, job: newJob(part) });
  }

  /** A shop profile or pour log beside the job; undefined takes it away. */
  setBeside(kind: 'shop' | 'log', file: NamedText | undefined): void {
    const { shop, log, job } = this.#state.draft.sources;
    const beside = { shop, log, [kind]: file };
    this.#commit({
      job,
      ...(beside.shop ? { shop: beside.shop } : {}),
      ...(beside.log ? { log: beside.log } : {}),
    });
    this.#work(true);
  }

  /** While a size is dragged: a coarse picture at once, nothing else. */
  drag(changes: readonly Change[]): void {
    this.#beforeDrag ??= this.#state.draft.sources;
    this.#redraft(this.#changed(changes));
    this.#orderSketch();
  }

  edit(changes: readonly Change[]): void {
    this.setText(this.#changed(changes));
  }

  setText(job: string): void {
    this.#commit({ ...this.#state.draft.sources, job });
    this.#work(true);
  }

  addEntry(entry: { readonly [key: string]: Plain }): void {
    const { sources, entries } = this.#state.draft;
    this.setText(addEntry(sources.job, entry));
    const added = this.#state.draft.entries[entries.length];
    if (added) this.choose(added.castings[0] as string);
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
    if (job === null) return false;
    const text = switchUnits(sources.job, job.units, to);
    const after = readSources({ ...sources, job: text });
    if (!after.ok || JSON.stringify({ ...after.job, units: job.units }) !== JSON.stringify(job)) return false;
    this.setText(text);
    return true;
  }

  undo(): void {
    this.#travel(this.#past, this.#future);
  }

  redo(): void {
    this.#travel(this.#future, this.#past);
  }

  choose(casting: string): void {
    if (casting === this.#state.casting) return;
    this.#set({ casting, section: null });
    this.#orderSketch();
  }

  show(shown: ShownState): void {
    this.#set({ shown });
    this.#orderSketch();
  }

  look(how: { readonly dimensions?: boolean; readonly paint?: Paint; readonly plate?: number }): void {
    this.#set(how);
  }

  cut(section: SectionPlane | null): void {
    this.#set({ section });
  }

  /** The mate that is to turn with the chosen gear; null where none is looked at. */
  setMate(entry: PartEntry | null): void {
    const { mate } = this.#state;
    if (JSON.stringify(mate?.entry) === JSON.stringify(entry ?? undefined)) return;
    // The last one's mesh stays until the new one's is there.
    const begins = mate === null && entry !== null;
    this.#set({
      mate: entry && { entry, mesh: mate?.mesh ?? null },
      ...(begins ? { shown: 'part', section: null } : {}),
    });
    if (begins) this.#orderSketch();
    if (!entry) return;
    this.#mates ??= new SketchDesk((reply) => this.#mateCame(reply));
    const job = JSON.stringify({ job: 'mate', parts: [entry] });
    this.#mates.order({ id: ++this.#sketchId, sources: { job }, casting: entry.name, state: 'part' });
  }

  /** A frame with the last change in it is drawn, at a time of `performance.now()`. */
  painted(now: number): void {
    if (this.#changedAt === undefined) return;
    performance.measure('change to picture', { start: this.#changedAt, end: now });
    this.#changedAt = undefined;
  }

  tell(notice: string | null): void {
    this.#set({ notice });
  }

  /** @throws Error when the job has changed since it was made */
  files(paths: readonly string[] | 'zip'): Promise<readonly WrittenFile[]> {
    return this.#makes.files(this.#state.draft.sources, paths);
  }

  close(): void {
    clearTimeout(this.#makeTimer);
    clearTimeout(this.#keepTimer);
    this.#keep();
    removeEventListener('pagehide', this.#keep);
    document.removeEventListener('visibilitychange', this.#keep);
    this.#sketches.close();
    this.#mates?.close();
    this.#makes.close();
  }

  #set(change: Partial<BenchState>): void {
    this.#state = { ...this.#state, ...change };
    for (const listener of this.#listeners) listener();
  }

  #changed(changes: readonly Change[]): string {
    return setValues(this.#state.draft.sources.job, changes);
  }

  #redraft(job: string): void {
    const { sources, version } = this.#state.draft;
    this.#set({ draft: draftOf({ ...sources, job }, version + 1), refused: null });
  }

  #commit(sources: Sources): void {
    this.#past = [...this.#past, this.#beforeDrag ?? this.#state.draft.sources].slice(-mostUndone);
    this.#future = [];
    this.#take(sources);
  }

  #take(sources: Sources): void {
    this.#beforeDrag = undefined;
    const draft = draftOf(sources, this.#state.draft.version + 1);
    const casting = entryOf({ draft, casting: this.#state.casting });
    const isThere = casting?.castings.includes(this.#state.casting);
    this.#set({
      draft,
      refused: null,
      ...(isThere ? {} : { casting: casting?.castings[0] ?? '', section: null }),
      canUndo: this.#past.length > 0,
      canRedo: this.#future.length > 0,
    });
  }

  #travel(from: Sources[], to: Sources[]): void {
    const sources = from.pop();
    if (sources === undefined) return;
    to.push(this.#beforeDrag ?? this.#state.draft.sources);
    this.#take(sources);
    this.#work(true);
  }

  /** Has the present text sketched, made and kept. */
  #work(sketch: boolean): void {
    if (sketch) this.#orderSketch();
    clearTimeout(this.#makeTimer);
    this.#makeTimer = setTimeout(() => this.#orderMake(), makeAfter);
    clearTimeout(this.#keepTimer);
    this.#keepTimer = setTimeout(() => this.#keep(), keepAfter);
  }

  #orderSketch(): void {
    const { draft, casting, shown, made } = this.#state;
    if (draft.job === null || made?.version === draft.version) return;
    const id = ++this.#sketchId;
    this.#changedAt ??= performance.now();
    this.#orders.set(id, draft.version);
    const state = shown === 'plate' ? 'gated' : shown;
    this.#sketches.order({ id, sources: draft.sources, casting, state });
  }

  #sketchCame(reply: SketchReply): void {
    const version = this.#orders.get(reply.id) as number;
    for (const id of this.#orders.keys()) if (id <= reply.id) this.#orders.delete(id);
    if (reply.kind === 'sketch') this.#set({ sketched: { version, reply } });
    else if (version === this.#state.draft.version)
      this.#set(reply.kind === 'refused' ? { refused: reply } : { notice: reply.message });
  }

  #mateCame(reply: SketchReply): void {
    const { mate } = this.#state;
    if (mate && reply.kind === 'sketch' && reply.casting === mate.entry.name)
      this.#set({ mate: { ...mate, mesh: reply.meshes.part ?? null } });
  }

  #orderMake(): void {
    const { draft } = this.#state;
    if (draft.job === null) {
      this.#set({ progress: null });
      return;
    }
    this.#making = { id: this.#makes.make(draft.sources), version: draft.version };
    this.#set({ progress: { stage: '', share: 0 } });
  }

  #makeCame(reply: DeskReply): void {
    if (reply.id !== this.#making?.id) return;
    const { version } = this.#making;
    const isPresent = version === this.#state.draft.version;
    if (reply.kind === 'progress') {
      if (isPresent) this.#set({ progress: { stage: reply.stage, share: reply.share } });
    } else if (reply.kind === 'made')
      this.#set({ made: { version, reply }, ...(reply.final ? { progress: null } : {}) });
    else if (isPresent)
      this.#set({
        progress: null,
        ...(reply.kind === 'refused' ? { refused: reply } : { notice: reply.message }),
      });
  }

  /** Also as the page goes, so that the last change is not lost. */
  readonly #keep = (): void => {
    if (this.#shelf && !keepWork(this.#shelf, this.#state.draft.sources))
      this.tell('This browser keeps nothing for the page: save the job as a file before you leave.');
  };
}

function startOf(sources: Sources): BenchState {
  const draft = draftOf(sources, 0);
  return {
    draft,
    casting: draft.entries[0]?.castings[0] ?? '',
    shown: 'part',
    plate: 0,
    section: null,
    dimensions: false,
    paint: 'plain',
    sketched: null,
    made: null,
    refused: null,
    progress: null,
    mate: null,
    notice: null,
    canUndo: false,
    canRedo: false,
  };
}
