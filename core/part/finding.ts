/** How much a finding matters: `stop` refuses the job, `warn` is worth acting on, `note` is good to know. */
export type Severity = 'stop' | 'warn' | 'note';

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
}

/** Findings are read as sentences: a capital first, a full stop last. */
function sentence(text: string): string {
  const capital = text.charAt(0).toUpperCase() + text.slice(1);
  return /[.!?]$/.test(capital) ? capital : `${capital}.`;
}

const finding =
  (severity: Severity) =>
  (code: string, message: string, remedy: string, ...parameters: string[]): Finding => ({
    severity,
    code,
    message: sentence(message),
    remedy: sentence(remedy),
    parameters,
  });

export const stop = finding('stop');
export const warn = finding('warn');
export const note = finding('note');

export const hasStop = (findings: readonly Finding[]): boolean => findings.some((f) => f.severity === 'stop');
