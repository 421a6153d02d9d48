/** One thing that is wrong with a job, where it stands, and what would be right. */
export interface Problem {
  /** Stable kebab-case code. */
  readonly code: string;
  /** Keys of the job's text, outermost first: `['parts', '2', 'parameters', 'teeth']`. Empty for the whole. */
  readonly path: readonly string[];
  readonly message: string;
  readonly remedy: string;
  /** The file it is in, and its place there from 1, where it was read from text. */
  readonly file?: string;
  readonly line?: number;
  readonly column?: number;
}
