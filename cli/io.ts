/** The command line's edges, handed in so that a whole run can be tested. */
export interface Io {
  /** Results. */
  readonly out: (text: string) => void;
  /** Messages. */
  readonly err: (text: string) => void;
  /** Whether messages go to a terminal, which gets progress. */
  readonly isTerminal: boolean;
  /** Columns of that terminal, now. */
  readonly columns?: () => number | undefined;
  readonly cwd: string;
  /** Holds interrupts back while a folder is written, so that what is begun can be cleared away. */
  readonly holdInterrupts?: () => HeldInterrupts;
  /** The built module that further threads run; left out: a run has none. */
  readonly workerFile?: URL;
  /** Told before a part file is run: what it leaves running must not keep the program. */
  readonly runsPartFiles?: () => void;
}

export interface HeldInterrupts {
  readonly interrupted: () => boolean;
  /** Resolves at the first one. */
  readonly whenInterrupted: Promise<void>;
  readonly release: () => void;
}

/** 0 done, 1 the job cannot be made as asked, 2 the request itself is wrong, 3 made without some of its parts. */
export type ExitCode = 0 | 1 | 2 | 3;
