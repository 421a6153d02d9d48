import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { buildFolder, builtMain } from '../built-program.js';
import { timeNode } from '../child.js';
import type { Sheet } from '../sheet.js';
import { ratioOf, spreadOf } from '../spread.js';
import { milliseconds, times } from './words.js';

const turns = 25;

/** The least a program with options does: the parser loaded, one option declared, the arguments read. */
const parserScript = `import yargs from 'yargs';
const { name } = await yargs(['--name', 'gear']).option('name', { string: true }).help(false).parseAsync();
if (name !== 'gear') process.exit(1);
`;

const asked = [
  ['--help'],
  ['--version'],
  ['plate', '--help'],
  ['make', '--help'],
  ['make', 'spur-gear', '--help'],
] as const;

/** Until help is on the screen, against a bare start of Node and against one with the argument parser. */
export async function benchStartUp(sheet: Sheet): Promise<void> {
  // Inside the build, so that the parser is found.
  const folder = mkdtempSync(join(buildFolder, 'start-up-'));
  const parser = join(folder, 'parser.mjs');
  writeFileSync(parser, parserScript);
  const runs = [['-e', '0'], [parser], ...asked.map((argv) => [builtMain, ...argv])];
  const found: number[][] = runs.map(() => []);
  try {
    for (let turn = -2; turn < turns; turn++) {
      for (const [i, argv] of runs.entries()) {
        const time = await timeNode(argv, folder);
        if (turn >= 0) found[i]?.push(time);
      }
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
  const [bare, withParser, ...ours] = found as [number[], number[], ...number[][]];
  sheet.add(
    'Start-up',
    `Medians and quarters of ${turns} runs in turns, each a process of its own. Node with the parser: yargs loaded, one option read.`,
    [
      {
        what: 'Node with the parser',
        measured: milliseconds(withParser),
        against: `node -e 0: ${milliseconds(bare)}`,
        ratio: times(ratioOf(withParser, bare)),
      },
      ...asked.map((argv, i) => {
        const mine = ours[i] as number[];
        const ratio = ratioOf(mine, withParser);
        return {
          what: `\`patternwright ${argv.join(' ')}\``,
          measured: `${milliseconds(mine)}, ${times(ratioOf(mine, bare))} of node -e 0`,
          against: `Node with the parser: ${spreadOf(withParser).median.toFixed(0)} ms`,
          ratio: times(ratio),
          ...(argv[0] === '--help' ? { wanted: { words: 'within 2 ×', met: ratio <= 2 } } : {}),
        };
      }),
    ],
  );
}
