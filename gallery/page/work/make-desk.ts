import { pageMeshes } from '../mesh/open-meshes.js';
import {
  type MadeCasting,
  type MakeOrder,
  type MakeReply,
  notLoaded,
  type SentCasting,
  type Sources,
  type WrittenFile,
} from './protocol.js';
import { SentMeshes } from './sent-meshes.js';

/** Longer than any stage of a job but a fine freezing takes, ms: past it a worker that is wanted for newer work is ended. */
const patience = 4000;

/** The made job, with all the meshes of its castings. */
export type MadeReply = Omit<Extract<MakeReply, { kind: 'made' }>, 'castings'> & {
  readonly castings: readonly MadeCasting[];
};
export type DeskReply = Exclude<MakeReply, { kind: 'made' | 'files' }> | MadeReply;

/** Where jobs are made in full. The newest order counts; what was made for older ones is dropped. */
export class MakeDesk {
  readonly #onReply: (reply: DeskReply) => void;
  #worker: Worker;
  readonly #sent = new SentMeshes(pageMeshes.bytes);
  #castings = new Map<number, MadeCasting>();
  readonly #waiting = new Map<
    number,
    { resolve: (files: readonly WrittenFile[]) => void; reject: (error: Error) => void }
  >();
  #lastId = 0;
  #newest: Extract<MakeOrder, { kind: 'make' }> | undefined;
  /** When the worker last came to the end of something; undefined while it has said nothing, and may still be loading. */
  #heardAt: number | undefined;
  /** The worker may still be at work for an older order. */
  #isBehind = false;
  #timer: ReturnType<typeof setTimeout> | undefined;

  constructor(onReply: (reply: DeskReply) => void) {
    this.#onReply = onReply;
    this.#worker = this.#start();
  }

  /** Makes a job; every reply to it carries the number given back. */
  make(sources: Sources): number {
    const order = { kind: 'make', id: ++this.#lastId, sources } as const;
    if (this.#newest !== undefined) this.#isBehind = true;
    this.#newest = order;
    this.#send(order);
    this.#watch();
    return order.id;
  }

  /**
   * Files of the job that was last made, from the same sources.
   * @throws Error when it has changed since, or a file is not sound
   */
  files(sources: Sources, paths: readonly string[] | 'zip'): Promise<readonly WrittenFile[]> {
    const id = ++this.#lastId;
    return new Promise((resolve, reject) => {
      this.#waiting.set(id, { resolve, reject });
      this.#worker.postMessage({ kind: 'files', id, sources, paths } satisfies MakeOrder);
    });
  }

  close(): void {
    clearTimeout(this.#timer);
    this.#worker.terminate();
  }

  #start(): Worker {
    const worker = new Worker(new URL('./maker.worker.ts', import.meta.url), { type: 'module' });
    worker.onmessage = ({ data }: MessageEvent<MakeReply>) => {
      // What an ended worker said before may still come; its stamps are not those of the present one.
      if (worker === this.#worker) this.#hear(data);
    };
    worker.onerror = () => {
      if (worker !== this.#worker) return;
      this.#refuseFiles(notLoaded);
      if (this.#newest) this.#hear({ kind: 'broken', id: this.#newest.id, message: notLoaded });
    };
    return worker;
  }

  #send(order: Extract<MakeOrder, { kind: 'make' }>): void {
    this.#worker.postMessage({ ...order, ...this.#sent.toBring(order.sources) } satisfies MakeOrder);
  }

  #hear(reply: MakeReply): void {
    const isNewest = reply.id === this.#newest?.id;
    if (isNewest) this.#isBehind = false;
    // How old work goes on within a stage is what newer work would wait for.
    if (isNewest || reply.kind !== 'progress' || !this.#isBehind) this.#heardAt = performance.now();
    const waiting = this.#waiting.get(reply.id);
    if (waiting) {
      this.#waiting.delete(reply.id);
      if (reply.kind === 'files') waiting.resolve(reply.files);
      else waiting.reject(new Error(reply.kind === 'broken' ? reply.message : 'The files were not made.'));
      return;
    }
    // Meshes are sent once: they are taken in even where the reply comes too late.
    const told = reply.kind === 'made' ? { ...reply, castings: this.#takeIn(reply.castings) } : reply;
    if (reply.id !== this.#newest?.id || told.kind === 'files') return;
    if (told.kind === 'broken' || told.kind === 'refused' || (told.kind === 'made' && told.final))
      this.#newest = undefined;
    this.#onReply(told);
  }

  #refuseFiles(why: string): void {
    for (const { reject } of this.#waiting.values()) reject(new Error(why));
    this.#waiting.clear();
  }

  #takeIn(sent: readonly SentCasting[]): readonly MadeCasting[] {
    const castings = sent.map((c) => ('meshes' in c ? c : (this.#castings.get(c.stamp) as MadeCasting)));
    this.#castings = new Map(castings.map((c) => [c.stamp, c]));
    return castings;
  }

  /** Ends a worker that is deep in old work, and gives the newest order to another. */
  #watch(): void {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => {
      const newest = this.#newest;
      if (newest === undefined || !this.#isBehind) return;
      if (this.#heardAt === undefined || performance.now() - this.#heardAt < patience) {
        this.#watch();
        return;
      }
      this.#worker.terminate();
      this.#castings.clear();
      this.#refuseFiles('The job changed meanwhile.');
      this.#worker = this.#start();
      this.#sent.forget();
      this.#isBehind = false;
      this.#heardAt = undefined;
      this.#send(newest);
    }, patience);
  }
}
