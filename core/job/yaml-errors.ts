/** The YAML parser's errors in a job writer's words. */
import type { CST, YAMLError } from 'yaml';

export interface YamlProblem {
  readonly code: string;
  /** Offset in the text. */
  readonly at: number;
  readonly message: string;
  readonly remedy: string;
  /** Offset of an earlier place to name. */
  readonly earlier?: number;
}

const wording: Readonly<Partial<Record<YAMLError['code'], readonly [message: string, remedy: string]>>> = {
  TAB_AS_INDENT: ['a tab is used to indent', 'indent with spaces'],
  BAD_INDENT: ['is indented wrongly', 'line it up with the keys it belongs with'],
  BAD_DQ_ESCAPE: ['has an unknown \\ escape', 'write \\\\ for a backslash, or use single quotes'],
  BAD_SCALAR_START: ['starts with a character that YAML keeps for itself', 'put the value in quotes'],
  BLOCK_AS_IMPLICIT_KEY: [
    'has two colons or a nested key on one line',
    'put the value in quotes, or on lines of its own',
  ],
  MULTILINE_IMPLICIT_KEY: ['a line has no colon after its key', 'write key: value on one line'],
  KEY_OVER_1024_CHARS: ['has a key of more than 1024 characters', 'write key: value'],
  BLOCK_IN_FLOW: ['has indented lines inside brackets', 'write it with brackets or with lines, not both'],
  BAD_DIRECTIVE: ['has a % directive', 'take it out'],
  BAD_ALIAS: ['has a malformed anchor or alias', 'write the value out'],
  ALIAS_PROPS: ['has an anchor or tag on an alias', 'write the value out'],
  MULTIPLE_ANCHORS: ['has two anchors', 'write the value out'],
  MULTIPLE_TAGS: ['has two tags', 'write the value without a tag'],
  TAG_RESOLVE_FAILED: ['has an unknown tag', 'write the value without a tag'],
  BAD_COLLECTION_TYPE: ['has a tag that does not fit', 'write the value without a tag'],
};

const notClosed: Readonly<Record<string, readonly [what: string, remedy: string]>> = {
  'double-quoted-scalar': ['a quote', 'close it with "'],
  'single-quoted-scalar': ['a quote', "close it with '"],
  'flow-collection': ['a bracket', 'close it with ] or }, and indent what is inside'],
};

/** Puts one parser error into words. What is not closed is told where it opens, not where the text ends. */
export function readSyntaxError(error: YAMLError, tokens: readonly CST.Token[]): YamlProblem {
  const [at] = error.pos;
  const open = /closing|must end with|flow (map|seq|collection)/i.test(error.message)
    ? findOpen(tokens, at)
    : undefined;
  if (open !== undefined) {
    const [what, remedy] = notClosed[open.type]!;
    return { code: 'yaml-syntax', at: open.offset, message: `${what} is opened here and not closed`, remedy };
  }
  if (/at node end|in YAML stream|Unexpected .* token/i.test(error.message)) {
    return {
      code: 'yaml-syntax',
      at,
      message: 'something stands here that YAML cannot place',
      remedy: 'check quotes, colons and indentation on this line',
    };
  }
  const [message, remedy] = wording[error.code] ?? [
    'is not YAML',
    'check quotes, colons and indentation on this line',
  ];
  return { code: error.code.startsWith('TAG') ? 'tag' : 'yaml-syntax', at, message, remedy };
}

/** The innermost unclosed quote or bracket that reaches to `at`. */
function findOpen(tokens: readonly CST.Token[], at: number): CST.Token | undefined {
  let found: CST.Token | undefined;
  const visit = (token: CST.Token | null | undefined): void => {
    if (token === null || token === undefined || token.offset > at) return;
    if (isUnclosed(token) && (found === undefined || token.offset > found.offset)) found = token;
    if (token.type === 'document') visit(token.value);
    if ('items' in token) {
      for (const item of token.items) {
        visit(item.key);
        visit(item.value);
      }
    }
  };
  for (const token of tokens) visit(token);
  return found;
}

function isUnclosed(token: CST.Token): boolean {
  if (token.type === 'flow-collection') {
    const last = token.end[0]?.type;
    return last !== 'flow-map-end' && last !== 'flow-seq-end';
  }
  if (token.type !== 'double-quoted-scalar' && token.type !== 'single-quoted-scalar') return false;
  return token.source.length < 2 || !token.source.endsWith(token.source[0]!);
}
