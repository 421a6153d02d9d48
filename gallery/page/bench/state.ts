/** What the bench knows: the job's text, how it reads, what was made of it, and how it is looked at. */
import type { Job, JobPart } from '../../../core/job/job.js';
import type { PartEntry } from '../../../core/pair/mate/mate-entry.js';
import type { PartDefinition } from '../../../core/part/contract.js';
import type { Mesh } from '../../../core/solid/types.js';
import { findPart } from '../../../generators/index.js';
import { plainJob } from '../job/document.js';
import type { SectionPlane } from '../view/content.js';
import type { MadeReply } from '../work/make-desk.js';
import type { Refusal, ShownState, SketchReply, Sources } from '../work/protocol.js';
import { readSources } from '../work/read-sources.js';

/** What colours a gated pattern: nothing, when its metal is solid, or how nearly it stops on its way. */
const paints = ['plain', 'solid', 'spent'] as const;
export type Paint = (typeof paints)[number];

/** One item under `parts`, as it is written. */
export interface Entry {
  readonly index: number;
  readonly name: string;
  /** The part's name; the definition where there is such a part. */
  readonly part: string;
  readonly definition: PartDefinition | undefined;
  readonly raw: Readonly<Record<string, unknown>>;
  /** Its castings by their names in the job: one, or one a piece. */
  readonly castings: readonly string[];
}

/** The job's text and what is read from it. */
export interface Draft {
  /** Counts the changes: results carry the number of the text they were made from. */
  readonly version: number;
  readonly sources: Sources;
  readonly entries: readonly Entry[];
  readonly raw: Readonly<Record<string, unknown>>;
  /** The job, or null while the text has problems. */
  readonly job: Job | null;
  readonly refusal: Refusal | null;
}

export interface Made {
  readonly version: number;
  readonly reply: MadeReply;
}

export interface Sketched {
  readonly version: number;
  /** The definition's name. */
  readonly part: string;
  readonly reply: Extract<SketchReply, { kind: 'sketch' }>;
}

export interface BenchState {
  readonly draft: Draft;
  /** Name of the casting that is looked at. */
  readonly casting: string;
  readonly shown: ShownState;
  readonly plate: number;
  readonly section: SectionPlane | null;
  readonly dimensions: boolean;
  readonly paint: Paint;
  readonly sketched: Sketched | null;
  readonly made: Made | null;
  /** Why the present text is not made. */
  readonly refused: Refusal | null;
  readonly progress: { readonly stage: string; readonly share: number } | null;
  /** The mate that turns with the chosen gear, while it is looked at; its mesh when it is made. */
  readonly mate: { readonly entry: PartEntry; readonly mesh: Mesh | null } | null;
  /** A sentence for the reader: a file that could not be read, work that could not be kept. */
  readonly notice: string | null;
  readonly canUndo: boolean;
  readonly canRedo: boolean;
}

/** The bench with a job that nothing is made of yet. */
export function startOf(sources: Sources): BenchState {
  const draft = draftOf(sources, 0);
  return {
    draft,
    casting: draft.entries[0]?.castings[0] ?? '',
    shown: 'part',
    plate: 0,
    section: null,
    dimensions: false,
    paint: 'plain',
    sketched: null,
    made: null,
    refused: null,
    progress: null,
    mate: null,
    notice: null,
    canUndo: false,
    canRedo: false,
  };
}

/** Reads the text anew. Never throws: what is wrong stands in `refusal`. */
export function draftOf(sources: Sources, version: number): Draft {
  const reading = readSources(sources);
  const raw = rawJob(sources.job);
  return {
    version,
    sources,
    raw,
    entries: entriesOf(raw),
    job: reading.ok ? reading.job : null,
    refusal: reading.ok ? null : { problems: reading.problems, findings: [] },
  };
}

function rawJob(text: string): Readonly<Record<string, unknown>> {
  try {
    const plain: unknown = plainJob(text);
    return typeof plain === 'object' && plain !== null && !Array.isArray(plain)
      ? (plain as Record<string, unknown>)
      : {};
  } catch {
    return {};
  }
}

function entriesOf({ parts }: Readonly<Record<string, unknown>>): readonly Entry[] {
  if (!Array.isArray(parts)) return [];
  return parts.flatMap((item: unknown, index): readonly Entry[] => {
    if (typeof item !== 'object' || item === null) return [];
    const raw = item as Readonly<Record<string, unknown>>;
    const name = String(raw.name ?? '');
    const part = String(raw.part ?? '');
    const definition = findPart(part);
    const pieces = raw.piece === undefined ? (definition?.pieces ?? []) : [];
    const castings = pieces.length === 0 ? [name] : pieces.map((piece) => `${name}-${piece.name}`);
    return [{ index, name, part, definition, raw, castings }];
  });
}

/** The entry that a casting belongs to; the first where it belongs to none. */
export const entryOf = ({ draft, casting }: Pick<BenchState, 'draft' | 'casting'>): Entry | undefined =>
  draft.entries.find((e) => e.castings.includes(casting)) ?? draft.entries[0];

export const requestOf = ({ draft, casting }: Pick<BenchState, 'draft' | 'casting'>): JobPart | undefined =>
  draft.job?.parts.find((p) => p.name === casting) ?? draft.job?.parts[0];

/** Whether what was made is of the present text. */
export const isCurrent = ({ draft, made }: Pick<BenchState, 'draft' | 'made'>): boolean =>
  made?.version === draft.version;

/**
 * The meshes that are looked at: exact where they are of the present text, else the sketch, else the last there are of
 * the same part.
 */
export function meshesOf(state: BenchState): {
  readonly part?: Mesh;
  readonly casting?: Mesh;
  readonly pattern?: Mesh;
  readonly standing?: Mesh;
  readonly gating?: Mesh;
} {
  const { sketched, made, casting } = state;
  const part = entryOf(state)?.part;
  const isSame = made?.reply.summary.parts.some((p) => p.name === casting && p.part === part);
  const exact = isSame ? made?.reply.castings.find((c) => c.name === casting) : undefined;
  const sketch = sketched?.reply.casting === casting && sketched.part === part ? sketched : undefined;
  if (sketch && (!exact || sketch.version > (made?.version ?? -1))) {
    const { meshes, gating } = sketch.reply;
    return gating ? { standing: meshes.pattern as Mesh, gating } : meshes;
  }
  if (!exact) return {};
  const { part: finished, casting: rough, pattern } = exact.meshes;
  return { part: finished, casting: rough, pattern, standing: exact.standing, gating: exact.gating };
}
