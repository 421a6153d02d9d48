/** What the reading of a job collects problems with, and reads words and groups by. */
import type { z } from 'zod';
import type { ParameterSchema } from '../part/contract.js';
import { listSchemaFields, optionName } from '../part/field-list.js';
import { type InputProblem, showText, showValue } from '../part/input-problem.js';
import { readFields } from '../part/parameters.js';
import { suggestRemedy } from '../part/suggest.js';
import { formatNumber, type LengthUnit, type Parsed } from '../units/index.js';
import type { JobProblem } from './job-problem.js';
import { parseSafeName } from './safe-name.js';
import { toPlain, type YamlNode, type YamlReading } from './yaml-tree.js';

export type Path = readonly string[];

export class JobReader {
  readonly problems: JobProblem[] = [];
  lengthUnit: LengthUnit = 'mm';

  constructor(
    readonly file: string,
    readonly root: YamlNode,
    readonly position: YamlReading['position'],
  ) {}

  /** Reports a problem at its path: at the key if the key itself is wrong, else at the value. */
  report(problem: InputProblem, where: 'key' | 'value' = 'value'): void {
    const { line, column } = this.position(locate(this.root, problem.path, where));
    this.problems.push({ ...problem, file: this.file, line, column });
  }

  refuse(code: string, path: Path, node: YamlNode | undefined, message: string, remedy: string): void {
    this.report({ code, path, got: node === undefined ? '' : showNode(node), message, remedy });
  }

  lineOf(path: Path): number {
    return this.position(locate(this.root, path, 'value')).line;
  }

  /** The group at a key of another group; absent keys give undefined, anything but a group a problem. */
  group(parent: YamlNode, path: Path): YamlNode | undefined {
    const node = child(parent, path.at(-1)!);
    if (node === undefined) return undefined;
    if (node.kind === 'map') return node;
    this.refuse('wrong-type', path, node, nodeIs(node), 'give it as indented keys and values');
    return undefined;
  }

  list(parent: YamlNode, path: Path, most: number, items: string): readonly YamlNode[] | undefined {
    const node = child(parent, path.at(-1)!);
    if (node === undefined) return undefined;
    if (node.kind !== 'list') {
      this.refuse('wrong-type', path, node, nodeIs(node), `give a list of ${items}, each after "- "`);
      return undefined;
    }
    if (node.items.length > most) {
      this.refuse('too-many', path, node, `has ${node.items.length} ${items}`, `at most ${most}`);
      return undefined;
    }
    return node.items;
  }

  /** Refuses keys outside `known`. */
  checkKeys(node: YamlNode, path: Path, known: readonly string[]): void {
    if (node.kind !== 'map') return;
    for (const { key, value } of node.entries.slice(0, 1000)) {
      if (known.includes(key)) continue;
      const remedy = suggestRemedy(key, known);
      const problem = {
        code: 'unknown-key',
        path: [...path, key],
        got: showNode(value),
        message: 'unknown key',
        remedy,
      };
      this.report(problem, 'key');
    }
  }

  /** One line of text at a key. Undefined if absent or refused. */
  text(parent: YamlNode, path: Path, longest: number): string | undefined {
    const node = child(parent, path.at(-1)!);
    return node === undefined ? undefined : this.line(node, path, longest);
  }

  line(node: YamlNode, path: Path, longest: number): string | undefined {
    const value = node.kind === 'scalar' ? node.value : undefined;
    if (typeof value !== 'string') {
      this.refuse('wrong-type', path, node, nodeIs(node), 'write a text, in quotes if need be');
      return undefined;
    }
    const text = value.trim();
    if (text === '') this.refuse('missing', path, node, 'is empty', 'write a text, or leave the key out');
    else if (text.length > longest) {
      this.refuse('too-long', path, node, `is ${text.length} characters long`, `at most ${longest}`);
    } else if (/[\p{Cc}\p{Cs}]/u.test(text)) {
      this.refuse(
        'wrong-type',
        path,
        node,
        'has a line break or control character',
        'write one line of text',
      );
    } else return text;
    return undefined;
  }

  /** A text that passes `check`. */
  checked(
    parent: YamlNode,
    path: Path,
    check: (text: string) => Parsed<string>,
    code: string,
  ): string | undefined {
    const node = child(parent, path.at(-1)!);
    const text = this.text(parent, path, 10_000);
    if (text === undefined) return undefined;
    const reading = check(text);
    if (reading.ok) return reading.value;
    this.refuse(code, path, node, `"${showText(text)}" ${reading.problem}`, reading.remedy);
    return undefined;
  }

  /** A name that becomes a folder; it must be there. */
  name(parent: YamlNode, path: Path, remedy: string): string | undefined {
    if (child(parent, path.at(-1)!) !== undefined)
      return this.checked(parent, path, parseSafeName, 'unsafe-name');
    this.missing(path, remedy);
    return undefined;
  }

  missing(path: Path, remedy: string): void {
    this.refuse('missing', path, undefined, 'is missing', remedy);
  }

  /** Remembers where `name` stands; refuses it if it stood somewhere before, naming both lines. */
  checkUnique(seen: Map<string, Path>, name: string, path: Path, remedy: string): void {
    const earlier = seen.get(name);
    if (earlier === undefined) {
      seen.set(name, path);
      return;
    }
    const message = `is ${showText(name)} on line ${this.lineOf(path)}, as on line ${this.lineOf(earlier)}`;
    this.report({ code: 'duplicate-name', path, got: showText(name), message, remedy });
  }

  /** A word out of a list. */
  word(parent: YamlNode, path: Path, known: readonly string[], code: string): string | undefined {
    const node = child(parent, path.at(-1)!);
    const text = this.text(parent, path, 10_000);
    if (text === undefined || known.includes(text)) return text;
    this.refuse(code, path, node, `is ${showText(text)}`, suggestRemedy(text, known));
    return undefined;
  }

  /** The keys of `parent` that belong to `schema`, or all of them with `strict`. Undefined if any is refused. */
  fields<S extends ParameterSchema>(
    schema: S,
    parent: YamlNode,
    path: Path,
    strict: boolean,
  ): z.output<S> | undefined {
    const names = listSchemaFields(schema).map((field) => field.name);
    const plain = toPlain(strict ? parent : only(parent, names));
    const reading = readFields(schema, plain, { lengthUnit: this.lengthUnit });
    if (reading.ok) return reading.values;
    this.reportAll(reading.problems, path);
    return undefined;
  }

  /** A whole group of fields at a key. Absent, it is all defaults. */
  fieldGroup<S extends ParameterSchema>(schema: S, parent: YamlNode, path: Path): z.output<S> | undefined {
    const node = child(parent, path.at(-1)!) === undefined ? emptyGroup : this.group(parent, path);
    return node === undefined ? undefined : this.fields(schema, node, path, true);
  }

  reportAll(problems: readonly InputProblem[], path: Path): void {
    for (const problem of problems) {
      const where = problem.code === 'unknown-key' || problem.code === 'given-twice' ? 'key' : 'value';
      this.report({ ...withGrowthHint(problem), path: [...path, ...problem.path] }, where);
    }
  }
}

export const child = (node: YamlNode, key: string): YamlNode | undefined =>
  node.kind === 'map' ? node.entries.find((entry) => entry.key === key)?.value : undefined;

export const emptyGroup: YamlNode = { kind: 'map', at: 0, size: 1, entries: [] };

/** `is a list`, `is true`, `has no value`: the start of a complaint about a node of the wrong kind. */
export const nodeIs = (node: YamlNode): string =>
  node.kind === 'scalar' && node.value === null ? 'has no value' : `is ${showNode(node)}`;

export const showNode = (node: YamlNode): string =>
  node.kind === 'map' ? 'a group of keys' : node.kind === 'list' ? 'a list' : showValue(node.value);

const only = (node: YamlNode, names: readonly string[]): YamlNode =>
  node.kind === 'map'
    ? { ...node, entries: node.entries.filter((entry) => names.includes(entry.key)) }
    : node;

/** Casting / pattern and a contraction in percent are easy slips for pattern / casting. */
function withGrowthHint(problem: InputProblem): InputProblem {
  if (problem.path.at(-1) !== 'growth') return problem;
  const percent = /^([\d.]+) ?%$/.exec(problem.got)?.[1];
  const given = Number(problem.got);
  const upsideDown = problem.code === 'out-of-range' && given >= 0.9 && given < 1;
  if (percent === undefined && !upsideDown) return problem;
  const meant = percent === undefined ? 1 / given : 1 + Number(percent) / 100;
  const hint = `growth is pattern size / casting size, from 1 to 1.1; for ${problem.got} write ${formatNumber(meant, { digits: 5 })}`;
  return { ...problem, remedy: hint };
}

/** The offset of what a path leads to; of the deepest part of it that exists. */
function locate(root: YamlNode, path: Path, where: 'key' | 'value'): number {
  let node = root;
  let at = root.at;
  for (const [i, step] of path.entries()) {
    if (node.kind === 'list') {
      const item = node.items[Number(step)];
      if (item === undefined) return at;
      node = item;
      at = item.at;
    } else if (node.kind === 'map') {
      const spelled = node.entries.findLast((entry) => entry.key === step || entry.key === optionName(step));
      if (spelled === undefined) return at;
      const empty = spelled.value.kind === 'scalar' && spelled.value.value === null;
      at = empty || (where === 'key' && i === path.length - 1) ? spelled.keyAt : spelled.value.at;
      node = spelled.value;
    } else return at;
  }
  return at;
}
