import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import type { Machine } from './machine.js';
import { isTrial } from './trial.js';

/** What is asked of a figure, and whether it is met. */
export interface Wanted {
  readonly words: string;
  readonly met: boolean;
}

export interface Row {
  readonly what: string;
  readonly measured: string;
  readonly against: string;
  /** Measured and against come from one run, in turns where they are times. */
  readonly ratio: string;
  readonly wanted?: Wanted;
}

export const projectFolder = resolve(import.meta.dirname, '../..');

/** Where the table goes: `PATTERNWRIGHT_BENCH_OUT`, or out/bench.md of the project. */
const target = resolve(projectFolder, process.env.PATTERNWRIGHT_BENCH_OUT ?? 'out/bench.md');

/** The table of the main figures: printed as it grows, written as Markdown at the end. */
export class Sheet {
  readonly #machine: Machine;
  readonly #sections: { title: string; note: string; rows: readonly Row[] }[] = [];

  constructor(machine: Machine) {
    this.#machine = machine;
    say(`\n${machine.words}`);
    for (const warning of machine.warnings) say(`WARNING: ${warning}`);
  }

  /** @param note how it was measured, and what is left out */
  add(title: string, note: string, rows: readonly Row[]): void {
    this.#sections.push({ title, note, rows });
    say(`\n${title}\n${note}`);
    for (const row of rows)
      say(
        `  ${row.what}: ${row.measured}; ${row.against}; ${row.ratio}${row.wanted ? `; ${verdict(row.wanted)}` : ''}`,
      );
  }

  /** Writes nothing where nothing was measured. */
  write(): void {
    if (this.#sections.length === 0) return;
    mkdirSync(dirname(target), { recursive: true });
    writeFileSync(target, this.#markdown());
    say(`\nWrote ${target}`);
  }

  #markdown(): string {
    const { words, warnings } = this.#machine;
    return [
      ...(isTrial ? ['**A trial of the bench itself: small sizes, few parts.**\n'] : []),
      `Measured on ${words}.`,
      ...warnings.map((warning) => `\n**${warning}**`),
      ...this.#sections.flatMap(({ title, note, rows }) => [
        `\n### ${title}\n`,
        `${note}\n`,
        '| what | measured | against | ratio | wanted |',
        '| --- | --- | --- | --- | --- |',
        ...rows.map(
          ({ what, measured, against, ratio, wanted }) =>
            `| ${what} | ${measured} | ${against} | ${ratio} | ${wanted ? verdict(wanted) : ''} |`,
        ),
      ]),
      '',
    ].join('\n');
  }
}

const verdict = ({ words, met }: Wanted): string => `${words}: ${met ? 'met' : 'NOT MET'}`;

export const say = (text: string): void => void process.stdout.write(`${text}\n`);
