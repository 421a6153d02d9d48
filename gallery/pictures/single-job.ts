import { isMap, isSeq, parseDocument } from 'yaml';

/** Settings of a job that one piece of it keeps. */
const kept = new Set(['units', 'degrees', 'alloy', 'investment', 'layerHeight', 'bed', 'parts']);

/**
 * The text of a plate job that makes one entry of another alone, once, with the other's comment on it.
 * @throws Error when the job has no such entry
 */
export function singleJob(text: string, name: string, title: string): string {
  const document = parseDocument(text);
  const { contents } = document;
  const parts = document.get('parts');
  if (!isMap(contents) || !isSeq(parts)) throw new Error('not a job with parts');
  const index = parts.items.findIndex((item) => isMap(item) && item.get('name') === name);
  const entry = parts.items[index];
  if (!isMap(entry)) throw new Error(`no part called ${name}`);
  // The comment on the first entry is read as the list's.
  const comment = index === 0 ? parts.commentBefore : entry.commentBefore;
  entry.delete('quantity');
  entry.delete('patternsPerTree');
  entry.commentBefore = null;
  entry.spaceBefore = false;
  parts.items = [entry];
  parts.commentBefore = comment ?? null;
  contents.items = contents.items.filter(({ key }) => kept.has(String(key)));
  // With one piece, its metal is the job's.
  const alloy = entry.get('alloy');
  if (alloy !== undefined) {
    entry.delete('alloy');
    document.set('alloy', alloy);
  }
  for (const { value } of contents.items) if (value && typeof value === 'object') trimComments(value);
  contents.items.unshift(document.createPair('job', name), document.createPair('title', title));
  document.commentBefore = ' A piece of the museum ropewalk, which is invented; so are its sizes.';
  contents.commentBefore = null;
  return document.toString({ lineWidth: 0 });
}

/** A comment at the end of a setting speaks of what was left out. */
function trimComments(node: { comment?: string | null }): void {
  node.comment = null;
}
