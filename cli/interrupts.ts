import type { HeldInterrupts, Io } from './io.js';

/** Interrupts held back for as long as what is begun is to be ended in order. */
export class Interrupts {
  readonly #io: Pick<Io, 'holdInterrupts'>;
  #held: HeldInterrupts | undefined;
  #isWanted = false;
  #through = 0;
  #tell: () => void = () => undefined;

  constructor(io: Pick<Io, 'holdInterrupts'>) {
    this.#io = io;
  }

  /** What is done at the first. */
  onFirst(tell: () => void): void {
    this.#tell = tell;
  }

  hold(): void {
    this.#isWanted = true;
    if (this.#held || this.#through > 0) return;
    this.#held = this.#io.holdInterrupts?.();
    void this.#held?.whenInterrupted.then(() => this.#tell());
  }

  release(): void {
    this.#isWanted = false;
    this.#held?.release();
    this.#held = undefined;
  }

  /** Meanwhile an interrupt does what it does by itself: work that keeps this thread would not let it be heard. */
  async letThrough<T>(work: () => Promise<T>): Promise<T> {
    this.#through++;
    if (!this.#held?.interrupted()) {
      this.#held?.release();
      this.#held = undefined;
    }
    try {
      return await work();
    } finally {
      this.#through--;
      if (this.#isWanted) this.hold();
    }
  }
}
