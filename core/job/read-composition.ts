import type { ElementSymbol } from '../foundry/alloys/index.js';
import { elementDensity } from '../foundry/alloys/mixture.js';
import { type JobReader, nodeIs, type Path } from './job-reader.js';
import type { YamlNode } from './yaml-tree.js';

const elements = Object.keys(elementDensity);

export interface CompositionRule {
  /** What the shares may add up to, mass %. */
  readonly least: number;
  readonly most: number;
  readonly remedy: string;
}

/**
 * Mass % by element, `{ Cu: 87, Sn: 11, Zn: 2 }`. Undefined where the key is absent or no group; shares that are
 * refused are left out and told.
 */
export function readComposition(
  reader: JobReader,
  item: YamlNode,
  path: Path,
  { least, most, remedy }: CompositionRule,
): Readonly<Partial<Record<ElementSymbol, number>>> | undefined {
  const node = reader.group(item, path);
  if (node?.kind !== 'map') return undefined;
  reader.checkKeys(node, path, elements);
  const shares = node.entries.flatMap(({ key, value: share }) => {
    if (!elements.includes(key)) return [];
    const value =
      share.kind === 'scalar' && typeof share.value === 'string'
        ? Number(share.value.replace(/ ?%$/, '') || Number.NaN)
        : Number.NaN;
    if (value >= 0 && value <= 100) return [[key as ElementSymbol, value] as const];
    reader.refuse('out-of-range', [...path, key], share, nodeIs(share), 'give mass %, from 0 to 100');
    return [];
  });
  const sum = shares.reduce((s, [, value]) => s + value, 0);
  if (shares.length === node.entries.length && (sum < least || sum > most))
    reader.refuse('out-of-range', path, node, `sums to ${Math.round(sum * 100) / 100} %`, remedy);
  return Object.fromEntries(shares);
}
