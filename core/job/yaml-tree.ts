/**
 * A located tree of plain values from YAML 1.2 text. Only what a job needs is let through: groups with plain
 * keys, lists, and scalars, which stay text but for plain `true`, `false` and null. No tags, no merge keys, no
 * second document; anchors and aliases within bounds.
 */
import {
  Composer,
  isAlias,
  isMap,
  isScalar,
  isSeq,
  Lexer,
  LineCounter,
  type ParsedNode,
  Parser,
  Scalar,
} from 'yaml';
import { showText } from '../part/input-problem.js';
import { readSyntaxError, type YamlProblem } from './yaml-errors.js';

/** `at` is the offset in the text where it starts. */
export type YamlNode =
  | {
      readonly kind: 'map';
      readonly at: number;
      readonly size: number;
      readonly entries: readonly YamlEntry[];
    }
  | { readonly kind: 'list'; readonly at: number; readonly size: number; readonly items: readonly YamlNode[] }
  | {
      readonly kind: 'scalar';
      readonly at: number;
      readonly size: 1;
      readonly value: string | boolean | null;
    };

export interface YamlMap {
  readonly kind: 'map';
  readonly at: number;
  /** Values in it, counting those inside and itself. */
  readonly size: number;
  readonly entries: readonly YamlEntry[];
}

export interface YamlEntry {
  readonly key: string;
  readonly keyAt: number;
  readonly value: YamlNode;
}

export type YamlReading = {
  /** Null for a text with no content. */
  readonly root: YamlNode | null;
  readonly problems: readonly YamlProblem[];
  /** Line and column, from 1, of an offset. */
  readonly position: (at: number) => { readonly line: number; readonly column: number };
};

/** Deepest nesting; a job needs 6. The YAML composer is recursive and would exhaust the stack. */
const deepest = 16;
/** Open constructions in the parser at that nesting: each level opens at most two. */
const deepestStack = 2 * deepest + 4;
/** Values a document may have once its aliases are written out, over those it has written. */
const mostAliasedValues = 10_000;

/** Reads one document. Never throws. Syntax errors: only the first, since the rest mostly follow from it. */
export function readYaml(text: string): YamlReading {
  const lines = new LineCounter();
  const position = (at: number) => {
    const { line, col } = lines.linePos(at);
    return { line: Math.max(1, line), column: Math.max(1, col) };
  };
  const fail = (problem: YamlProblem): YamlReading => ({ root: null, problems: [problem], position });
  const parser = new Parser(lines.addNewLine);
  // As `Parser.parse` does it, but watching the depth before anything recursive sees the text.
  const tokens = [];
  lines.addNewLine(0);
  for (const lexeme of new Lexer().lex(text)) {
    for (const token of parser.next(lexeme)) tokens.push(token);
    if (parser.stack.length > deepestStack) return fail(tooDeep(parser.offset));
  }
  for (const token of parser.end()) tokens.push(token);
  const composer = new Composer({
    version: '1.2',
    schema: 'failsafe',
    uniqueKeys: false,
    prettyErrors: false,
  });
  const documents = composer.compose(tokens, true, text.length);
  const document = documents.next().value;
  if (document === undefined) return { root: null, problems: [], position };
  const [error] = [...document.errors, ...document.warnings].sort((a, b) => a.pos[0] - b.pos[0]);
  if (error !== undefined) return fail(readSyntaxError(error, tokens));
  const second = documents.next().value;
  if (second !== undefined) {
    const at = text.lastIndexOf('---', second.range[0]);
    return fail({
      code: 'many-documents',
      at: at < 0 ? second.range[0] : at,
      message: 'a second document starts here',
      remedy: 'keep one job in a file, without --- between',
    });
  }
  if (document.contents === null) return { root: null, problems: [], position };
  const problems: YamlProblem[] = [];
  const root = new TreeBuilder(problems).build(document.contents as ParsedNode, 1);
  return { root, problems, position };
}

const tooDeep = (at: number): YamlProblem => ({
  code: 'too-deep',
  at,
  message: `is nested more than ${deepest} deep`,
  remedy: 'a plate job needs no more than 6 levels',
});

class TreeBuilder {
  readonly #problems: YamlProblem[];
  readonly #anchors = new Map<string, YamlNode>();
  #aliased = 0;

  constructor(problems: YamlProblem[]) {
    this.#problems = problems;
  }

  build(node: ParsedNode | null, depth: number, emptyAt = 0): YamlNode {
    if (node === null) return scalar(emptyAt, null);
    const at = node.range[0];
    if (depth > deepest) return this.#refuse(tooDeep(at));
    if (isAlias(node)) return this.#resolve(node.source, at);
    if (node.tag !== undefined) {
      return this.#refuse({
        code: 'tag',
        at,
        message: `has the tag ${showText(node.tag)}`,
        remedy: 'write the value without a tag',
      });
    }
    const tree = this.#content(node, at, depth);
    if (node.anchor !== undefined) this.#anchors.set(node.anchor, tree);
    return tree;
  }

  #content(node: ParsedNode, at: number, depth: number): YamlNode {
    if (isSeq(node)) {
      const items = node.items.map((item) => this.build(item as ParsedNode, depth + 1, at));
      return { kind: 'list', at, size: sizeOf(items), items };
    }
    if (isMap(node)) {
      const entries = this.#entries(node.items as readonly { key: unknown; value: unknown }[], depth, at);
      return { kind: 'map', at, size: sizeOf(entries.map((e) => e.value)), entries };
    }
    return scalar(at, isScalar(node) ? scalarValue(node as Scalar) : null);
  }

  #entries(pairs: readonly { key: unknown; value: unknown }[], depth: number, mapAt: number): YamlEntry[] {
    const entries: YamlEntry[] = [];
    const seen = new Map<string, number>();
    for (const pair of pairs) {
      const keyNode = pair.key as ParsedNode | null;
      const keyAt = keyNode?.range[0] ?? mapAt;
      if (!isScalar(keyNode) || keyNode.source === '' || keyNode.anchor !== undefined) {
        this.#problems.push({
          code: 'bad-key',
          at: keyAt,
          message: 'has a key that is no plain word',
          remedy: 'write key: value',
        });
        continue;
      }
      const key = String(keyNode.value);
      const earlier = seen.get(key);
      if (earlier !== undefined) {
        this.#problems.push({
          code: 'duplicate-key',
          at: keyAt,
          message: `the key ${showText(key)} is given twice`,
          remedy: 'keep one of them',
          earlier,
        });
        continue;
      }
      seen.set(key, keyAt);
      entries.push({ key, keyAt, value: this.build(pair.value as ParsedNode | null, depth + 1, keyAt) });
    }
    return entries;
  }

  /** The tree of the anchor, shared, not copied: an exponential document costs nothing to build and is counted. */
  #resolve(name: string, at: number): YamlNode {
    const target = this.#anchors.get(name);
    if (target === undefined) {
      return this.#refuse({
        code: 'alias',
        at,
        message: `*${showText(name)} refers to nothing before it, or to what it stands in`,
        remedy: 'write the value out',
      });
    }
    const before = this.#aliased;
    this.#aliased += target.size;
    if (before > mostAliasedValues) return scalar(at, null);
    if (this.#aliased > mostAliasedValues) {
      return this.#refuse({
        code: 'alias',
        at,
        message: `aliases up to *${showText(name)} repeat more than ${mostAliasedValues} values`,
        remedy: 'write the values out',
      });
    }
    return { ...target, at };
  }

  #refuse(problem: YamlProblem): YamlNode {
    this.#problems.push(problem);
    return scalar(problem.at, null);
  }
}

const scalar = (at: number, value: string | boolean | null): YamlNode => ({
  kind: 'scalar',
  at,
  size: 1,
  value,
});

const sizeOf = (nodes: readonly YamlNode[]): number => nodes.reduce((sum, node) => sum + node.size, 1);

/** The YAML 1.2 core schema's null and booleans; numbers stay text, for the readers of quantities. */
function scalarValue(node: Scalar): string | boolean | null {
  const text = String(node.value);
  if (node.type !== Scalar.PLAIN) return text;
  if (/^(~|null|Null|NULL|)$/.test(text)) return null;
  if (/^(true|True|TRUE)$/.test(text)) return true;
  if (/^(false|False|FALSE)$/.test(text)) return false;
  return text;
}

/** Plain data with the same content; maps have no prototype, so no key is special. */
export function toPlain(node: YamlNode): unknown {
  if (node.kind === 'scalar') return node.value;
  if (node.kind === 'list') return node.items.map(toPlain);
  const plain = Object.create(null) as Record<string, unknown>;
  for (const { key, value } of node.entries) plain[key] = toPlain(value);
  return plain;
}
