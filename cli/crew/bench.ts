/** What a thread works with. */
import type { PartDefinition } from '../../core/part/contract.js';
import type { Kernel } from '../../core/solid/types.js';
import type { FreezeCrew } from '../freeze-crew.js';
import type { Shelf } from './shelf.js';
import type { Terms } from './terms.js';

export interface Bench {
  readonly terms: Terms;
  readonly shelf: Shelf;
  readonly kernel: () => Promise<Kernel>;
  readonly findPart: (name: string) => PartDefinition | undefined;
  /** Calls threads to help with one mould. */
  readonly callHands: (hands: number) => FreezeCrew | undefined;
}
