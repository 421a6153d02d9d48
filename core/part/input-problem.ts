/** What is wrong with something a person gave, as data; `formatInput` makes the sentence. */
export interface InputProblem {
  /** Stable kebab-case code, for example `out-of-range`. */
  readonly code: string;
  /** Where: parameter names (camelCase) and list indices, outermost first. Empty for the whole input. */
  readonly path: readonly string[];
  /** What was given, shortened and with unprintable characters escaped. */
  readonly got: string;
  /** What is wrong. The subject is the path: `is 4`, or `unknown key`. */
  readonly message: string;
  /** What would be right: `from 5 to 400`, `did you mean teeth?`. */
  readonly remedy: string;
}

const longestShown = 40;

/** A text safe to print: control characters and lone surrogates escaped, cut after 40 characters. */
export function showText(text: string): string {
  const cut = text.length > longestShown ? `${text.slice(0, longestShown)}…` : text;
  return cut.replace(
    // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what is looked for
    /[\u0000-\u001f\u007f-\u009f\u2028\u2029\u202a-\u202e\u2066-\u2069]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g,
    (c) => `\\u${c.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );
}

/** Any value in a few words, never its whole content. */
export function showValue(value: unknown): string {
  if (typeof value === 'string') return value === '' ? 'empty' : showText(value);
  if (value === null || value === undefined) return 'nothing';
  if (Array.isArray(value)) return 'a list';
  if (typeof value === 'object') return 'a group of keys';
  if (typeof value === 'function') return 'a function';
  return showText(String(value));
}

/** `parts[2].parameters.teeth` */
export const formatPath = (path: readonly string[]): string =>
  path.reduce((text, step) => {
    if (/^\d+$/.test(step)) return `${text}[${step}]`;
    return text === '' ? showText(step) : `${text}.${showText(step)}`;
  }, '');

/** `teeth is 4; from 5 to 400`, `tooth: unknown key; did you mean teeth?`. `subject` replaces the path in it. */
export function formatInput(problem: InputProblem, subject = formatPath(problem.path)): string {
  const colon = /^(is|are|has|needs) /.test(problem.message) ? '' : ':';
  const start = subject === '' ? '' : `${subject}${colon} `;
  return `${start}${problem.message}${problem.remedy === '' ? '' : `; ${problem.remedy}`}`;
}
