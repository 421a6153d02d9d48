/** How much a finding matters: `stop` refuses the job, `warn` is worth acting on, `note` is good to know. */
export type Severity = 'stop' | 'warn' | 'note';

/** Parameters set to values that a check knows to be right: mm, radians, words. */
export type Change = Readonly<Record<string, number | string | boolean>>;

/** A check's result, kept as data; the command line and the page phrase it. */
export interface Finding {
  readonly severity: Severity;
  /** Stable kebab-case code, for example `bore-through-root`. */
  readonly code: string;
  /** One sentence: what is wrong, with the value seen and the limit. */
  readonly message: string;
  /** One sentence: what would be right. */
  readonly remedy: string;
  /** The parameters it concerns, by their code names, where there are any. */
  readonly parameters?: readonly string[];
  /** What would mend it, where the remedy is a matter of values: by parameters' code names. */
  readonly change?: Change;
}

/** Findings are read as sentences: a capital first, a full stop last. */
function sentence(text: string): string {
  const capital = text.charAt(0).toUpperCase() + text.slice(1);
  return /[.!?]$/.test(capital) ? capital : `${capital}.`;
}

/** `about`: the parameters it concerns, and the change that would mend it. */
const finding =
  (severity: Severity) =>
  (code: string, message: string, remedy: string, ...about: (string | Change)[]): Finding => {
    const change = Object.assign({}, ...about.filter((item) => typeof item !== 'string')) as Change;
    return {
      severity,
      code,
      message: sentence(message),
      remedy: sentence(remedy),
      parameters: about.filter((item) => typeof item === 'string'),
      ...(Object.keys(change).length === 0 ? {} : { change }),
    };
  };

export const stop = finding('stop');
export const warn = finding('warn');
export const note = finding('note');

export const hasStop = (findings: readonly Finding[]): boolean => findings.some((f) => f.severity === 'stop');
