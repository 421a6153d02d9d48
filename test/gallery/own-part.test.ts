/** The tutorial, gone through as it is written: its files are written, its commands run, its outputs found. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, expect, test } from 'vitest';
import { ensureBuilt, projectFolder, runBuilt } from '../cli/helpers/built.js';
import { temporaryFolder } from '../cli/helpers/folders.js';
import { writeFiles } from '../cli/helpers/part-files.js';

const page = readFileSync(join(projectFolder, 'gallery/own-part/README.md'), 'utf8');
const cwd = temporaryFolder();

type Step =
  | { readonly kind: 'file'; readonly name: string; readonly text: string }
  | { readonly kind: 'command'; readonly command: string; readonly shown: readonly string[] };

const steps: readonly Step[] = [...page.matchAll(/^```(\w+) ?(\S*)\n(.*?)^```$/gms)].flatMap(
  ([, language, name = '', text = '']): readonly Step[] => {
    if (language !== 'console') return [{ kind: 'file', name, text }];
    return text.split(/^\$ /m).flatMap((run): readonly Step[] => {
      const [command = '', ...shown] = run.trimEnd().split('\n');
      return command === '' ? [] : [{ kind: 'command', command, shown }];
    });
  },
);

/** Lines in this order; one that ends in … may go on, one that is … stands for any. */
function expectShown(said: string, shown: readonly string[], command: string): void {
  const lines = said.replaceAll('\u00A0', ' ').split('\n');
  let from = 0;
  let mayskip = false;
  for (const line of shown) {
    if (line === '…') {
      mayskip = true;
      continue;
    }
    const cut = line.endsWith('…');
    const words = cut ? line.slice(0, -1).trimEnd() : line;
    const fits = (text: string): boolean => (cut ? text.startsWith(words) : text === words);
    const at = lines.findIndex((text, i) => i >= from && fits(text));
    expect(at, `${command} does not say "${line}":\n${said}`).toBeGreaterThanOrEqual(0);
    if (!mayskip) expect(at, `${command} says more before "${line}":\n${said}`).toBe(from);
    from = at + 1;
    mayskip = false;
  }
}

beforeAll(() => ensureBuilt());

test('the tutorial has files and commands', () => {
  const of = (kind: Step['kind']) => steps.filter((step) => step.kind === kind).length;
  expect([of('file'), of('command')]).toEqual([5, 11]);
});

test.each(steps.map((step) => [step.kind === 'file' ? `writes ${step.name}` : step.command, step] as const))(
  '%s',
  (_, step) => {
    if (step.kind === 'file') return writeFiles(cwd, { [step.name]: step.text });
    const argv = step.command.split(' ');
    expect(argv.splice(0, 2)).toEqual(['npx', 'patternwright']);
    const { out, err } = runBuilt(argv, { cwd });
    // Messages come before results where there are both.
    expectShown(`${err}${out}`, step.shown, step.command);
    if (step.shown.length === 0) expect(`${err}${out}`).toBe('');
  },
  120_000,
);
