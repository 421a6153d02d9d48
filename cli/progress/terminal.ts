import { byTheClock } from './allowed-time.js';
import { noProgress, type ProgressBar, startProgress } from './progress.js';

type Environment = Readonly<Record<string, string | undefined>>;

/** What a terminal can show, by what the environment says of it. */
export function terminalLook(
  env: Environment,
  platform: string = process.platform,
): { readonly unicode: boolean; readonly escapes: boolean } {
  const isDumb = env.TERM === 'dumb';
  // The first that is set and not empty counts, as for every program (POSIX, 8.2).
  const locale = env.LC_ALL || env.LC_CTYPE || env.LANG || '';
  const speaksUtf8 = platform === 'win32' ? env.WT_SESSION !== undefined : /utf-?8/i.test(locale);
  return { unicode: !isDumb && speaksUtf8, escapes: !isDumb };
}

/** The bar on standard error, where a person sees it. */
export function progressOn(
  io: {
    readonly err: (text: string) => void;
    readonly isTerminal: boolean;
    readonly columns?: () => number | undefined;
  },
  quiet: boolean,
): ProgressBar {
  if (!io.isTerminal || quiet) return { ...noProgress, print: io.err };
  return startProgress({
    write: io.err,
    columns: io.columns ?? (() => undefined),
    ...byTheClock,
    ...terminalLook(process.env),
  });
}
