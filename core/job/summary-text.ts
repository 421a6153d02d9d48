import type { Summary } from './summary.js';

/** `summary.json`, part by part: all together what `JSON.stringify(summary, null, 2)` gives, and a line's end. */
export function* summaryChunks(summary: Summary): Generator<string> {
  let separator = '{';
  for (const [key, value] of Object.entries(summary)) {
    if (value === undefined) continue;
    yield `${separator}\n  ${JSON.stringify(key)}: `;
    separator = ',';
    if (Array.isArray(value) && value.length > 0) yield* listChunks(value);
    else yield indented(value, '  ');
  }
  yield '\n}\n';
}

function* listChunks(list: readonly unknown[]): Generator<string> {
  let separator = '[';
  for (const item of list) {
    yield `${separator}\n    ${indented(item, '    ')}`;
    separator = ',';
  }
  yield '\n  ]';
}

/** No line's end is within a string: JSON writes those as `\n`. */
const indented = (value: unknown, by: string): string =>
  JSON.stringify(value, null, 2).replaceAll('\n', `\n${by}`);
