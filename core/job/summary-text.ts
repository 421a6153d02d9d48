import { jsonChunks } from '../files/json-chunks.js';
import type { Summary } from './summary.js';

/** `summary.json`, part by part. */
export function* summaryChunks(summary: Summary): Generator<string> {
  yield* jsonChunks(summary);
  yield '\n';
}
