/** Where `log add` writes and jobs look, if not told otherwise. */
export const logFileName = 'pour-log.jsonl';
