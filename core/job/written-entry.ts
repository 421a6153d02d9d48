/** How a job writes an entry, for advice that is to be pasted into it. */

import type { WrittenEntry } from './job.js';
import { child } from './job-reader.js';
import { toPlain, type YamlNode } from './yaml-tree.js';

/** Keys that a pattern keeps when it goes on a tree. */
const ofCasting = ['preset', 'growth', 'stock', 'parameters'] as const;

export function writtenEntry(item: YamlNode): WrittenEntry {
  const write = (keys: readonly string[]): string =>
    keys
      .flatMap((key) => {
        const node = child(item, key);
        return node === undefined ? [] : [`${key}: ${flow(toPlain(node))}`];
      })
      .join(', ');
  return { casting: write(ofCasting), gating: write(['gating']) };
}

/** Words, numbers and quantities that YAML takes for what they are without quotes. */
const bare =
  /^(?:(?!(?:yes|no|on|off|true|false|null|y|n)$)[a-z][a-zA-Z0-9-]*|-?\d+(?:\.\d+)?(?:[a-z]+|%)?)$/;

/** A value in one line of YAML. */
export function flow(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(flow).join(', ')}]`;
  if (typeof value === 'object' && value !== null)
    return `{ ${Object.entries(value)
      .map(([key, one]) => `${flow(key)}: ${flow(one)}`)
      .join(', ')} }`;
  if (typeof value !== 'string') return String(value);
  // Without a space no unit is given again in another.
  const text = value.replace(/^(\d+(?:\.\d+)?)\s+([a-z]+|%)$/, '$1$2');
  return bare.test(text) ? text : JSON.stringify(text);
}
