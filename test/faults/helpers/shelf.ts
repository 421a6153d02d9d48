/** A folder with an output folder `out` in it, as a reader finds it. */
import { mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect } from 'vitest';
import { listing } from '../../cli/helpers/folders.js';

export interface Shelf {
  /** Holds `job.yaml` and the shelf. */
  readonly cwd: string;
  readonly path: string;
}

export function newShelf(parent: string, name: string): Shelf {
  const cwd = join(parent, name);
  mkdirSync(join(cwd, 'shelf'), { recursive: true });
  return { cwd, path: join(cwd, 'shelf') };
}

/** Writes the output folder `shelf/out`. */
export const plate: readonly string[] = ['plate', 'job.yaml', '--out', 'shelf/out', '--quiet'];

export const giveJob = ({ cwd }: Shelf, text: string): void => writeFileSync(join(cwd, 'job.yaml'), text);

/** A job of one small part: short runs. */
export const smallJob = (size: number): string =>
  `job: a\ntolerance: 0.2\nfreeze: off\nparts:\n  - {name: one, part: hatch-pull, parameters: {size: ${size}}}\n`;

/** Three parts of two kinds, one of them twice. */
export const mixedJob = (size: number): string =>
  [
    'job: a',
    'tolerance: 0.2',
    'freeze: off',
    'parts:',
    `  - {name: one, part: hatch-pull, parameters: {size: ${size}}}`,
    '  - {name: two, part: rack, parameters: {teeth: 5}, quantity: 2}',
    `  - {name: three, part: hatch-pull, parameters: {size: ${size}}}`,
    '',
  ].join('\n');

/** What stands there, or whole beside it in the instant between two renames. */
export function found({ path }: Shelf): readonly string[] {
  const names = readdirSync(path);
  if (names.includes('out')) return listing(join(path, 'out'));
  const asides = names.filter((name) => name.startsWith('.out.aside-'));
  expect(asides).toHaveLength(1);
  return listing(join(path, asides[0]!));
}

export const namesOn = ({ path }: Shelf): readonly string[] => readdirSync(path).sort();
