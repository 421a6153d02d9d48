/** Whether patterns on a tree keep the rules of gating that they keep by themselves. */
import { farFeed } from '../foundry/gating/index.js';
import type { Finding } from '../part/finding.js';

/** A kind on a tree, and codes of what its gating falls short in by itself. */
export interface KindAlone {
  readonly name: string;
  readonly broken: Pick<ReadonlySet<string>, 'has'>;
}

/** How findings on a tree of several kinds name the pattern that they are of: names have no blanks. */
const ways: readonly ((name: string) => string)[] = [
  (name) => ` gate at ${name}: `,
  (name) => `Metal from ${name}: `,
  (name) => `Metal enters ${name} at `,
  (name) => ` that of ${name}; `,
  (name) => `No vent fits at ${name}: `,
];

/** A sentence begins with a capital, whatever the name does. */
const isOf = ({ message }: Finding, name: string): boolean =>
  message.toLowerCase().startsWith(`${name.toLowerCase()}: `) ||
  ways.some((way) => message.includes(way(name)));

/** One kind's fault excuses no other: what is of one pattern it must have by itself, what is of the tree any of them. */
export const breaksMore = (findings: readonly Finding[], kinds: readonly KindAlone[]): boolean =>
  findings
    .filter((f) => f.severity !== 'note' || f.code === farFeed)
    .some((f) => {
      const own = kinds.filter(({ name }) => isOf(f, name));
      return !(own.length > 0 ? own : kinds).some(({ broken }) => broken.has(f.code));
    });
