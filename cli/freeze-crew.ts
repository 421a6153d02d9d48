import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import type { Crew } from '../core/freeze/kernel/crew.js';
import { kernelBytes } from '../core/freeze/kernel/heat-kernel.js';
import { atStop } from '../core/freeze/kernel/layout.js';

export interface FreezeCrew extends Crew {
  /** Sends all hands home. */
  close(): void;
}

/** What a hand does: waits to be called to a memory, serves there until it is to leave. Plain text, so that no file is needed. */
const hand = `
const { parentPort, workerData: { bytes, number } } = require('node:worker_threads');
const kernel = new WebAssembly.Module(bytes);
const abort = () => { throw new Error('kernel'); };
parentPort.on('message', (memory) =>
  new WebAssembly.Instance(kernel, { env: { memory, abort } }).exports.serve(number));
`;

/** Hands in threads of their own, one for each further processor unless told. They do not keep the program running. */
export function startCrew(hands: number = availableParallelism() - 1): FreezeCrew {
  const bytes = kernelBytes(true);
  const workers = Array.from({ length: hands }, (_, n) => {
    const worker = new Worker(hand, { eval: true, workerData: { bytes, number: n + 1 } });
    worker.unref();
    return worker;
  });
  let at: WebAssembly.Memory | undefined;
  const leave = (): void => {
    if (at) Atomics.store(new Int32Array(at.buffer), atStop / 4, 1);
  };
  return {
    hands,
    attend(memory) {
      if (memory === at) return;
      leave();
      at = memory;
      Atomics.store(new Int32Array(memory.buffer), atStop / 4, 0);
      for (const worker of workers) worker.postMessage(memory);
    },
    close() {
      leave();
      at = undefined;
      for (const worker of workers) void worker.terminate();
    },
  };
}
