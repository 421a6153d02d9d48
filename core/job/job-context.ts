import type { PartDefinition } from '../part/contract.js';

/** Why a mesh file cannot be read; the subject is its name: `is not there`. */
export interface MeshFault {
  readonly message: string;
  readonly remedy: string;
}

/** Why a part file gives no part. The message begins with its place: `./my-part.mjs:3:7 Unexpected token`. */
export interface PartFileFault {
  readonly code: string;
  readonly message: string;
  readonly remedy: string;
}

/** What a part file gave. */
export type PartFileReading =
  | { readonly ok: true; readonly definition: PartDefinition }
  | { readonly ok: false; readonly faults: readonly PartFileFault[] };

/** Whether what a job names as `part` is the path of a part file, not a part's name. */
export const isPartFile = (text: string): boolean => /[\\/]|\.[cm]?[jt]sx?$/i.test(text);

/** What a job may refer to: the parts, alloys and investments this program has. */
export interface JobContext {
  /** As it is shown in problems. */
  readonly fileName: string;
  readonly knownParts: (name: string) => PartDefinition | undefined;
  readonly partNames: readonly string[];
  readonly knownAlloys: readonly string[];
  readonly knownInvestments: readonly string[];
  /** Part files that have been run, by their paths as jobs write them; left out: part files are not run here. */
  readonly partFiles?: ReadonlyMap<string, PartFileReading>;
  /** Mesh files that cannot be read, by the name that jobs give them; left out: nobody has looked. */
  readonly meshFaults?: ReadonlyMap<string, MeshFault>;
  /** The shop profile that was found, where the job does not bring its own. */
  readonly shop?: { readonly fileName: string; readonly source: string | Uint8Array };
}
