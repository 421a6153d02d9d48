/** What the page and its workers say to each other. All of it is plain data that `postMessage` carries. */

import type { MeshState } from '../../../core/job/make-part.js';
import type { Summary } from '../../../core/job/summary.js';
import type { Finding } from '../../../core/part/finding.js';
import type { SpaceDimension } from '../../../core/report/drawing/space-dimensions.js';
import type { FieldVolume } from '../../../core/report/freeze/field-volume.js';
import type { Mesh } from '../../../core/solid/types.js';
import type { Problem } from '../job/problem.js';

/** A file as the reader opened it. */
export interface NamedText {
  readonly fileName: string;
  readonly text: string;
}

/** All that a job is made from. */
export interface Sources {
  readonly job: string;
  readonly shop?: NamedText;
  readonly log?: NamedText;
}

/** The state that is looked at: the four of a part, or its plates. */
export type ShownState = MeshState | 'plate';

/** Asked of the sketcher: one casting, coarse and at once. */
export interface SketchOrder {
  readonly id: number;
  readonly sources: Sources;
  /** The casting's name in the job; the first where it has none of it. */
  readonly casting: string;
  readonly state: MeshState;
}

export type SketchReply =
  | {
      readonly id: number;
      readonly ok: true;
      readonly casting: string;
      /** Those that the state shows: the part as well as the casting, so that stock is seen. */
      readonly meshes: Partial<Record<MeshState, Mesh>>;
      readonly gating?: Mesh;
      readonly milliseconds: number;
    }
  | {
      readonly id: number;
      readonly ok: false;
      readonly problems: readonly Problem[];
      readonly findings: readonly NamedFindings[];
    };

export interface NamedFindings {
  /** The casting's name; '' for the job. */
  readonly name: string;
  readonly findings: readonly Finding[];
}

/** Asked of the maker: the whole job, exactly; or files of the job last made. */
export type MakeOrder =
  | { readonly kind: 'make'; readonly id: number; readonly sources: Sources }
  | {
      readonly kind: 'files';
      readonly id: number;
      readonly sources: Sources;
      readonly paths: readonly string[] | 'all';
    };

/** One casting of a made job, as the view shows it. */
export interface MadeCasting {
  readonly name: string;
  readonly meshes: Readonly<Record<MeshState, Mesh>>;
  readonly standing: Mesh;
  readonly gating: Mesh;
  readonly dimensions: readonly SpaceDimension[];
}

export interface FrozenCasting {
  readonly name: string;
  /** When it is solid, and how near the first metal comes to stopping. */
  readonly solid: FieldVolume;
  readonly spent: FieldVolume;
}

export type MakeReply =
  | { readonly kind: 'progress'; readonly id: number; readonly stage: string; readonly share: number }
  | {
      readonly kind: 'refused';
      readonly id: number;
      readonly problems: readonly Problem[];
      readonly findings: readonly NamedFindings[];
    }
  /** Before filling and freezing are worked out (`final` false), and after. */
  | {
      readonly kind: 'made';
      readonly id: number;
      readonly final: boolean;
      readonly summary: Summary;
      readonly castings: readonly MadeCasting[];
      readonly frozen: readonly FrozenCasting[];
    }
  | {
      readonly kind: 'files';
      readonly id: number;
      readonly files: readonly { readonly path: string; readonly bytes: Uint8Array }[];
    }
  | { readonly kind: 'broken'; readonly id: number; readonly message: string };
