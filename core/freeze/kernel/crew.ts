/** Further hands that work on a field's memory, each in a thread of its own. Without any, the caller does all. */
export interface Crew {
  readonly hands: number;
  /** Calls the hands to a shared memory: each makes `sharedKernel` on it and does `serve(number)`, 1 for the first. */
  attend(memory: WebAssembly.Memory): void;
}
