import type { SketchOrder, SketchReply } from './protocol.js';

/** Where sketches are ordered: one is being made, and of those ordered meanwhile only the last is. */
export class SketchDesk {
  readonly #worker: Worker;
  readonly #onReply: (reply: SketchReply) => void;
  #busy = false;
  #next: SketchOrder | undefined;

  constructor(onReply: (reply: SketchReply) => void) {
    this.#onReply = onReply;
    this.#worker = new Worker(new URL('./sketcher.worker.ts', import.meta.url), { type: 'module' });
    this.#worker.onmessage = ({ data }: MessageEvent<SketchReply>) => {
      this.#busy = false;
      this.#onReply(data);
      const next = this.#next;
      this.#next = undefined;
      if (next) this.order(next);
    };
  }

  order(order: SketchOrder): void {
    if (this.#busy) {
      this.#next = order;
      return;
    }
    this.#busy = true;
    this.#worker.postMessage(order);
  }

  close(): void {
    this.#worker.terminate();
  }
}
