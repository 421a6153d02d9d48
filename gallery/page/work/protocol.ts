/** What the page and its workers say to each other. All of it is plain data that `postMessage` carries. */
import type { MeshState } from '../../../core/job/make-part.js';
import type { Summary } from '../../../core/job/summary.js';
import type { Finding } from '../../../core/part/finding.js';
import type { SpaceDimension } from '../../../core/report/drawing/space-dimensions.js';
import type { FieldVolume } from '../../../core/report/freeze/field-volume.js';
import type { Mesh } from '../../../core/solid/types.js';
import type { Problem } from '../job/problem.js';
import type { MeshRef } from '../mesh/mesh-ref.js';

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
  /** Mesh files that are open, each name once. Their bytes go to the workers by themselves. */
  readonly meshes?: readonly MeshRef[];
}

/** The bytes of a mesh file, on their way to a worker that has not had them. */
export interface SentMesh {
  readonly id: string;
  readonly blob: Blob;
}

/** The state that is looked at: the four of a part, or its plates. */
export const shownStates = ['part', 'casting', 'pattern', 'gated', 'plate'] as const;
export type ShownState = (typeof shownStates)[number];

export interface NamedFindings {
  /** The casting's name; '' for the job. */
  readonly name: string;
  readonly findings: readonly Finding[];
}

/** Why a job is not made: its text cannot be read, or what it asks for cannot be cast. */
export interface Refusal {
  readonly problems: readonly Problem[];
  readonly findings: readonly NamedFindings[];
}

/** Of a worker whose script does not come or does not run, in place of its answer. */
export const notLoaded = 'A part of the page could not be loaded. Save the job, then load the page again.';

/** Asked of the sketcher: one casting, coarse and at once. */
export interface SketchOrder {
  readonly id: number;
  readonly sources: Sources;
  /** Its name in the job; where there is none of it, the job's first. */
  readonly casting: string;
  readonly state: MeshState;
  readonly meshes?: readonly SentMesh[];
}

export type SketchReply =
  | {
      readonly kind: 'sketch';
      readonly id: number;
      readonly casting: string;
      /** Those that the state shows: the part as well as the casting, so that stock is seen. */
      readonly meshes: Readonly<Partial<Record<MeshState, Mesh>>>;
      readonly gating?: Mesh;
    }
  | ({ readonly kind: 'refused'; readonly id: number } & Refusal)
  | { readonly kind: 'broken'; readonly id: number; readonly message: string };

/** Asked of the maker: the whole job, exactly; or files of it. A newer order to make gives up an older one. */
export type MakeOrder =
  | {
      readonly kind: 'make';
      readonly id: number;
      readonly sources: Sources;
      readonly meshes?: readonly SentMesh[];
    }
  | {
      readonly kind: 'files';
      readonly id: number;
      readonly sources: Sources;
      /** Paths as in the output folder, or all of them in one zip. */
      readonly paths: readonly string[] | 'zip';
    };

/** Meshes of one casting as they are looked at; `stamp` is another when they are. */
export interface MadeCasting {
  readonly name: string;
  readonly stamp: number;
  readonly meshes: Readonly<Record<MeshState, Mesh>>;
  /** The patterns of one mould, and its gating by itself. */
  readonly standing: Mesh;
  readonly gating: Mesh;
  readonly dimensions: readonly SpaceDimension[];
}

/** A casting sent before is told by its stamp alone. */
export type SentCasting = MadeCasting | { readonly name: string; readonly stamp: number };

export interface FrozenCasting {
  readonly name: string;
  /** When it is solid, and how near the first metal comes to stopping. */
  readonly solid: FieldVolume;
  readonly spent: FieldVolume;
}

export interface WrittenFile {
  readonly path: string;
  readonly bytes: Uint8Array;
}

export type MakeReply =
  | { readonly kind: 'progress'; readonly id: number; readonly stage: string; readonly share: number }
  | ({ readonly kind: 'refused'; readonly id: number } & Refusal)
  /** Before filling and freezing are worked out (`final` false), and after. */
  | {
      readonly kind: 'made';
      readonly id: number;
      readonly final: boolean;
      readonly summary: Summary;
      readonly castings: readonly SentCasting[];
      readonly frozen: readonly FrozenCasting[];
    }
  | { readonly kind: 'files'; readonly id: number; readonly files: readonly WrittenFile[] }
  | { readonly kind: 'broken'; readonly id: number; readonly message: string };
