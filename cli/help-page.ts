import { wrap } from '../core/report/wrap.js';
import { codeName, type OptionRow } from './option-row.js';

/** One entry of a help page: what is typed, what it does, and what may be given. */
export interface HelpEntry {
  readonly group: string;
  readonly label: string;
  readonly help: string;
  /** On lines of their own; empty ones are left out. */
  readonly facts: string;
}

const labelWidth = 28;

/** Usage, entries under their headings in order of first appearance, closing paragraphs; 80 columns. */
export function formatHelpPage(
  usage: string,
  summary: string,
  entries: readonly HelpEntry[],
  closing: readonly string[] = [],
): string {
  const groups = new Map<string, HelpEntry[]>();
  for (const entry of entries) groups.set(entry.group, [...(groups.get(entry.group) ?? []), entry]);
  const sections = [...groups].map(([group, rows]) => [`${group}:`, ...rows.map(formatEntry)].join('\n'));
  const end = closing.map((text) => (text.includes('\n') ? text : wrap(text, '', '')));
  return `${[usage, wrap(`${summary}.`, '', ''), ...sections, ...end].join('\n\n')}\n`;
}

function formatEntry({ label, help, facts }: HelpEntry): string {
  const indent = ' '.repeat(labelWidth);
  const head = `  ${label}`;
  const fits = head.length + 2 <= labelWidth;
  const lines = [wrap(help, fits ? head.padEnd(labelWidth) : indent, indent)];
  if (!fits) lines.unshift(head);
  if (facts !== '') lines.push(wrap(facts, `${indent}  `, `${indent}  `));
  return lines.join('\n');
}

/** Options as entries. Parameters that the text mentions are named as options. */
export function optionEntries(rows: readonly OptionRow[]): readonly HelpEntry[] {
  const options = new Map(rows.map((row) => [codeName(row.name), row.name]));
  const asOptions = (text: string): string =>
    text.replace(/\b[a-z][a-z0-9]*[A-Z]\w*/g, (word) =>
      options.has(word) ? `--${options.get(word)}` : word,
    );
  return rows.map((row) => ({
    group: row.group,
    label: `--${row.name}${row.value === undefined ? '' : ` <${row.value}>`}`,
    help: asOptions(row.help),
    facts: [
      row.choices ? `one of ${row.choices.join(', ')}` : (row.range ?? ''),
      row.fallback === undefined ? '' : `default: ${asOptions(row.fallback)}`,
    ]
      .filter((fact) => fact !== '')
      .join('; '),
  }));
}
