import type { Shelf } from './job/keep.js';

/** The browser's own storage; undefined where it is forbidden. */
export function pageShelf(): Shelf | undefined {
  try {
    return globalThis.localStorage;
  } catch {
    return undefined;
  }
}
