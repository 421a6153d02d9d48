import type { HeldInterrupts, Io } from './io.js';

/** Interrupts held back for as long as what is begun is to be ended in order. */
export class Interrupts {
  readonly #io: Pick<Io, 'holdInterrupts'>;
  #held: HeldInterrupts | undefined;
  #tell: () => void = () => undefined;

  constructor(io: Pick<Io, 'holdInterrupts'>) {
    this.#io = io;
  }

  /** What is done at the first. */
  onFirst(tell: () => void): void {
    this.#tell = tell;
  }

  hold(): void {
    if (this.#held) return;
    this.#held = this.#io.holdInterrupts?.();
    void this.#held?.whenInterrupted.then(this.#tell);
  }

  release(): void {
    this.#held?.release();
    this.#held = undefined;
  }
}
