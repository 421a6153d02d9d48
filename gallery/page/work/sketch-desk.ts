import { pageMeshes } from '../mesh/open-meshes.js';
import { notLoaded, type SketchOrder, type SketchReply } from './protocol.js';
import { SentMeshes } from './sent-meshes.js';

/** Where sketches are ordered: one is being made, and of those ordered meanwhile only the last is. */
export class SketchDesk {
  readonly #worker: Worker;
  readonly #onReply: (reply: SketchReply) => void;
  readonly #sent = new SentMeshes(pageMeshes.bytes);
  /** The order that is being made. */
  #making: number | undefined;
  #next: SketchOrder | undefined;

  constructor(onReply: (reply: SketchReply) => void) {
    this.#onReply = onReply;
    this.#worker = new Worker(new URL('./sketcher.worker.ts', import.meta.url), { type: 'module' });
    this.#worker.onmessage = ({ data }: MessageEvent<SketchReply>) => this.#came(data);
    this.#worker.onerror = () => {
      if (this.#making !== undefined) this.#came({ kind: 'broken', id: this.#making, message: notLoaded });
    };
  }

  order(order: SketchOrder): void {
    if (this.#making !== undefined) {
      this.#next = order;
      return;
    }
    this.#making = order.id;
    this.#worker.postMessage({ ...order, ...this.#sent.toBring(order.sources) } satisfies SketchOrder);
  }

  close(): void {
    this.#worker.terminate();
  }

  #came(reply: SketchReply): void {
    this.#making = undefined;
    this.#onReply(reply);
    const next = this.#next;
    this.#next = undefined;
    if (next) this.order(next);
  }
}
