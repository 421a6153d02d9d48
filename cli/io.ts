/** The command line's edges, handed in so that a whole run can be tested. */
export interface Io {
  /** Results. */
  readonly out: (text: string) => void;
  /** Messages. */
  readonly err: (text: string) => void;
  /** Whether messages go to a terminal, which gets progress. */
  readonly isTerminal: boolean;
  readonly cwd: string;
}

/** 0 done, 1 the job cannot be made as asked, 2 the request itself is wrong. */
export type ExitCode = 0 | 1 | 2;

/** A request that cannot be understood; the message says what would be right. */
export class UsageError extends Error {
  override readonly name = 'UsageError';
}
