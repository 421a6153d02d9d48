import type { PartEntry } from '../../../core/pair/mate/mate-entry.js';
import { type DeskReply, MakeDesk } from '../work/make-desk.js';
import type { SketchReply, WrittenFile } from '../work/protocol.js';
import { SketchDesk } from '../work/sketch-desk.js';
import { type BenchState, entryOf, isCurrent, type Sketched } from './state.js';

/** ms after the last change until the job is made in full. */
const makeAfter = 120;

/** The state that the work is for, and where its results go. */
export interface WorkHost {
  readonly state: BenchState;
  readonly set: (change: Partial<BenchState>) => void;
}

/** What the workers are asked for, and which of their answers still count. */
export class BenchWork {
  readonly #host: WorkHost;
  readonly #sketches = new SketchDesk((reply) => this.#sketchCame(reply));
  readonly #makes = new MakeDesk((reply) => this.#makeCame(reply));
  /** Begun when a mate is first looked at. */
  #mates: SketchDesk | undefined;
  #mateId = 0;
  /** Sketches that were ordered: of which text, and which part. */
  readonly #orders = new Map<number, Omit<Sketched, 'reply'>>();
  #sketchId = 0;
  #making: { readonly id: number; readonly version: number } | undefined;
  #makeTimer: ReturnType<typeof setTimeout> | undefined;
  #changedAt: number | undefined;

  constructor(host: WorkHost) {
    this.#host = host;
  }

  /** Sketches what is looked at, unless it is made already. */
  sketch(): void {
    const { state } = this.#host;
    const { draft, casting, shown } = state;
    // Plates come with the job alone.
    if (draft.job === null || isCurrent(state) || shown === 'plate') return;
    const id = ++this.#sketchId;
    this.#changedAt ??= performance.now();
    this.#orders.set(id, { version: draft.version, part: entryOf(state)?.part ?? '' });
    this.#sketches.order({ id, sources: draft.sources, casting, state: shown });
  }

  /** Sketches now, and makes the job when no more changes come. */
  begin(): void {
    this.sketch();
    clearTimeout(this.#makeTimer);
    this.#makeTimer = setTimeout(() => this.#make(), makeAfter);
  }

  /** Makes a mate's finished part. */
  sketchMate(entry: PartEntry): void {
    this.#mates ??= new SketchDesk((reply) => this.#mateCame(reply));
    // Whatever it is cast in, and whether this page's job alone knows it, its shape is the same.
    const { alloy: _alloy, ...part } = entry;
    const job = JSON.stringify({ job: 'mate', parts: [part] });
    this.#mateId = ++this.#sketchId;
    this.#mates.order({ id: this.#mateId, sources: { job }, casting: entry.name, state: 'part' });
  }

  /** @throws Error when the job has changed since it was made */
  files(paths: readonly string[] | 'zip'): Promise<readonly WrittenFile[]> {
    return this.#makes.files(this.#host.state.draft.sources, paths);
  }

  /** A frame with the last change in it is drawn, at a time of `performance.now()`. */
  painted(now: number): void {
    if (this.#changedAt === undefined) return;
    performance.measure('change to picture', { start: this.#changedAt, end: now });
    this.#changedAt = undefined;
  }

  close(): void {
    clearTimeout(this.#makeTimer);
    this.#sketches.close();
    this.#mates?.close();
    this.#makes.close();
  }

  #sketchCame(reply: SketchReply): void {
    const { state, set } = this.#host;
    const order = this.#orders.get(reply.id);
    for (const id of this.#orders.keys()) if (id <= reply.id) this.#orders.delete(id);
    if (!order) return;
    if (reply.kind === 'sketch') set({ sketched: { ...order, reply } });
    // What was made says better whether the job can be.
    else if (order.version === state.draft.version && !isCurrent(state))
      set(reply.kind === 'refused' ? { refused: reply } : { notice: reply.message });
  }

  #mateCame(reply: SketchReply): void {
    const { mate } = this.#host.state;
    if (!mate || reply.id !== this.#mateId) return;
    this.#host.set({ mate: { ...mate, mesh: (reply.kind === 'sketch' && reply.meshes.part) || null } });
  }

  #make(): void {
    const { draft } = this.#host.state;
    if (draft.job === null) {
      this.#host.set({ progress: null });
      return;
    }
    this.#making = { id: this.#makes.make(draft.sources), version: draft.version };
    this.#host.set({ progress: { stage: '', share: 0 } });
  }

  #makeCame(reply: DeskReply): void {
    const { state, set } = this.#host;
    if (reply.id !== this.#making?.id) return;
    const { version } = this.#making;
    const isPresent = version === state.draft.version;
    if (reply.kind === 'progress') {
      if (isPresent) set({ progress: { stage: reply.stage, share: reply.share } });
    } else if (reply.kind === 'made')
      set({
        made: { version, reply },
        ...(isPresent ? { refused: null } : {}),
        ...(reply.final ? { progress: null } : {}),
      });
    else if (isPresent)
      set({ progress: null, ...(reply.kind === 'refused' ? { refused: reply } : { notice: reply.message }) });
  }
}
