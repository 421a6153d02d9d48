import type { PartDefinition } from '../part/contract.js';

/** What a job may refer to: the parts, alloys and investments this program has. */
export interface JobContext {
  /** As it is shown in problems. */
  readonly fileName: string;
  readonly knownParts: (name: string) => PartDefinition | undefined;
  readonly partNames: readonly string[];
  readonly knownAlloys: readonly string[];
  readonly knownInvestments: readonly string[];
  /** The shop profile that was found, where the job does not bring its own. */
  readonly shop?: { readonly fileName: string; readonly source: string | Uint8Array };
}
