/** The built program with threads: the same bytes however many there are, and whatever was kept from before. */
import { copyFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { ensureBuilt, projectFolder, runBuilt } from '../helpers/built.js';
import { listing, temporaryFolder } from '../helpers/folders.js';

beforeAll(ensureBuilt);

const cwd = temporaryFolder();
copyFileSync(join(projectFolder, 'gallery/ropewalk/bearing-bracket.stl'), join(cwd, 'bracket.stl'));
/** A busy machine, ms. */
const patience = 1_200_000;

const mixed = `job: mixed
tolerance: 0.1
freeze: off
parts:
  - { name: one, part: knob, parameters: { size: 24 } }
  - { name: like-one, part: knob, quantity: 3, parameters: { size: 24 } }
  - { name: like-two, part: spur-gear, parameters: { teeth: 14, faceWidth: 8, bore: 6 } }
  - { name: two, part: spur-gear, parameters: { teeth: 14, faceWidth: 8, bore: 6 } }
  - { name: bracket, part: mesh, parameters: { file: bracket.stl, fileUnit: mm } }
  - { name: cleat, part: horn-cleat, parameters: { line: 8 } }
  - { name: ring, part: ring-pull }
  - { name: brass, part: knob, alloy: yellow-brass, parameters: { size: 20 } }
  - { name: kinds, tree: [{ part: knob, parameters: { size: 18 } }, { part: deck-eye, parameters: { line: 8 } }] }
`;
const packed = `job: packed
tolerance: 0.1
freeze: off
packFlasks: yes
parts:
  - { name: eye, part: deck-eye, quantity: 2, parameters: { line: 8 } }
  - { name: knob, part: knob, quantity: 3, parameters: { size: 18 } }
  - { name: brass, part: knob, alloy: yellow-brass, quantity: 2, parameters: { size: 20 } }
`;
const shells = `job: shells
tolerance: 0.1
investment: ceramic-shell
freeze: coarse
improve: true
parts:
  - { name: gear, part: spur-gear, parameters: { teeth: 12, faceWidth: 8, bore: 6 } }
  - { name: like-gear, part: spur-gear, quantity: 2, parameters: { teeth: 12, faceWidth: 8, bore: 6 } }
  - { name: knob, part: knob, parameters: { size: 16 } }
`;

function made(job: string, threads: number, cache = 'none'): readonly string[] {
  writeFileSync(join(cwd, 'job.yaml'), job);
  const out = `${job.slice(5, 9)}-${threads}-${readdirSync(cwd).length}`;
  const argv = ['plate', 'job.yaml', '--out', out, '--threads', String(threads), '--cache', cache, '--quiet'];
  const ran = runBuilt(argv, { cwd, timeout: patience });
  expect([ran.code, ran.out, ran.err]).toEqual([0, '', '']);
  return listing(join(cwd, out));
}

describe('mixed parts and a tree', () => {
  test(
    'are the same bytes with one, two and five threads, made anew and kept',
    () => {
      const alone = made(mixed, 1);
      expect(alone.filter((line) => line.includes('/part.stl'))).toHaveLength(13);
      expect(made(mixed, 2)).toEqual(alone);
      expect(made(mixed, 5, 'cache')).toEqual(alone);
      const kept = readdirSync(join(cwd, 'cache'), { recursive: true }).filter((n) =>
        String(n).endsWith('.part'),
      );
      // Eleven patterns and trees, of which two are like another.
      expect(kept).toHaveLength(9);
      expect(made(mixed, 2, 'cache')).toEqual(alone);
      expect(made(mixed, 1, 'cache')).toEqual(alone);
    },
    patience,
  );

  test(
    'bear their own names though they are made once',
    () => {
      const hashes = (name: string, lines: readonly string[]): readonly string[] =>
        lines.filter((l) => l.startsWith(`${name}/`)).map((l) => l.slice(name.length + 1));
      const lines = made(mixed, 2, 'cache');
      const [one, other] = [hashes('two', lines), hashes('like-two', lines)];
      const differ = one.filter((line, i) => line !== other[i]).map((line) => line.split(' ')[0]);
      expect(differ).toEqual(['drawing.svg', 'gated.3mf']);
    },
    patience,
  );
});

test(
  'shells that are frozen and gated anew are the same bytes with one thread, two and five',
  () => {
    const alone = made(shells, 1);
    expect(made(shells, 2, 'cache-2')).toEqual(alone);
    expect(made(shells, 5)).toEqual(alone);
    expect(made(shells, 2, 'cache-2')).toEqual(alone);
  },
  patience,
);

test(
  'flasks that are packed are the same bytes with one thread and two, made anew and kept',
  () => {
    const alone = made(packed, 1);
    expect(alone.some((line) => line.startsWith('tree-1/'))).toBe(true);
    expect(made(packed, 2, 'cache-3')).toEqual(alone);
    expect(made(packed, 2, 'cache-3')).toEqual(alone);
  },
  patience,
);

test('a number of threads that means nothing is refused', () => {
  for (const threads of ['0', '-1', '2.5', 'many', '257']) {
    const ran = runBuilt(['make', 'knob', `--threads=${threads}`], { cwd });
    expect([ran.code, ran.err]).toEqual([2, `--threads is ${threads}; a whole number from 1 to 256\n`]);
  }
});
