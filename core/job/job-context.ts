import type { PartDefinition } from '../part/contract.js';

/** Why a mesh file cannot be read; the subject is its name: `is not there`. */
export interface MeshFault {
  readonly message: string;
  readonly remedy: string;
}

/** What a job may refer to: the parts, alloys and investments this program has. */
export interface JobContext {
  /** As it is shown in problems. */
  readonly fileName: string;
  readonly knownParts: (name: string) => PartDefinition | undefined;
  readonly partNames: readonly string[];
  readonly knownAlloys: readonly string[];
  readonly knownInvestments: readonly string[];
  /** Mesh files that cannot be read, by the name that jobs give them; left out: nobody has looked. */
  readonly meshFaults?: ReadonlyMap<string, MeshFault>;
  /** The shop profile that was found, where the job does not bring its own. */
  readonly shop?: { readonly fileName: string; readonly source: string | Uint8Array };
}
