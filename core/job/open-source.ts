/** From a file's text to its tree of keys and values, once for all who look into it. */
import { capProblems, type JobProblem } from './job-problem.js';
import { child } from './job-reader.js';
import { decodeSource } from './source-text.js';
import { readYaml, type YamlNode, type YamlReading } from './yaml-tree.js';

export type OpenedSource =
  | { readonly ok: true; readonly root: YamlNode; readonly position: YamlReading['position'] }
  | { readonly ok: false; readonly problems: readonly JobProblem[] };

/** The tree of a file of keys and values, or what is wrong with it as a whole. */
export function openSource(source: string | Uint8Array, file: string, what: 'job' | 'profile'): OpenedSource {
  const decoded = decodeSource(source);
  if (!decoded.ok) {
    const { code, line, column, message, remedy } = decoded;
    return { ok: false, problems: [{ code, path: [], got: '', message, remedy, file, line, column }] };
  }
  const { root, problems, position } = readYaml(decoded.text);
  const located = problems.map(({ at, earlier, ...problem }): JobProblem => {
    const first = earlier === undefined ? '' : `, first on line ${position(earlier).line}`;
    return { ...problem, message: problem.message + first, path: [], got: '', file, ...position(at) };
  });
  if (located.length > 0) return { ok: false, problems: capProblems(located) };
  if (root?.kind !== 'map') return { ok: false, problems: [wrongShape(root, file, what)] };
  return { ok: true, root, position };
}

function wrongShape(root: YamlNode | null, file: string, thing: 'job' | 'profile'): JobProblem {
  const empty = root === null || (root.kind === 'scalar' && root.value === null);
  const what = empty
    ? 'empty'
    : root.kind === 'list'
      ? 'a list, not keys and values'
      : 'one text, not keys and values';
  return {
    code: empty ? 'empty' : 'wrong-type',
    path: [],
    got: '',
    message: `the ${thing} is ${what}`,
    remedy:
      thing === 'job'
        ? 'a plate job starts with "job: a-name" and lists its "parts:"'
        : 'a shop profile has keys like "kiln:" and "flasks:"',
    file,
    line: 1,
    column: 1,
  };
}

/** What a job says of its shop: a file's path as written, that it brings its own group, or nothing (null). */
export type ShopKey = { readonly path: string } | 'own' | null;

/** Unreadable jobs say nothing: reading the job tells what is wrong. */
export function shopKeyOf(opened: OpenedSource): ShopKey {
  const node = opened.ok ? child(opened.root, 'shop') : undefined;
  if (node === undefined) return null;
  return node.kind === 'scalar' && typeof node.value === 'string' ? { path: node.value.trim() } : 'own';
}
