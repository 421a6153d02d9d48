/** How trees that the program packed are had by hand: what to take out of the job and what to put in. */
import type { Job, JobPart } from './job.js';
import { mouldsFor } from './tree.js';
import { flow } from './written-entry.js';

/** Names in a list, and characters of what is to be put in, before the rest is only counted. */
const mostNames = 12;
const mostWritten = 1500;

/** What is to be put in is YAML as it stands, in the job's own words. */
export function packAdvice(job: Job, trees: readonly JobPart[]): string {
  const onTrees = new Map<string, number>();
  for (const tree of trees)
    for (const { name, count } of tree.tree ?? [])
      onTrees.set(name, (onTrees.get(name) ?? 0) + count * mouldsFor(tree));
  const left = (part: JobPart): number => part.quantity - (onTrees.get(part.name) ?? 0);
  const out: string[] = [];
  const fewer: string[] = [];
  const alone: JobPart[] = [];
  for (const [entry, parts] of entriesOf(job)) {
    if (!parts.some((p) => onTrees.has(p.name))) continue;
    const rest = parts.filter((p) => left(p) > 0);
    if (parts.length === 1 && rest[0]) fewer.push(`${entry} (quantity: ${left(rest[0])})`);
    else {
      out.push(entry);
      alone.push(...rest.map((p) => ({ ...p, quantity: left(p) })));
    }
  }
  const written = new Map(job.parts.map((p) => [p.name, p.written]));
  const lines = [
    ...trees.map((tree) => treeLine(tree, written)),
    ...alone.map((part) => partLine(part, part.written)),
  ];
  const shown = upTo(lines, mostWritten);
  const steps = [
    'leave packFlasks out',
    ...(out.length > 0 ? [`take out ${few(out)}`] : []),
    ...(fewer.length > 0 ? [`of these keep fewer: ${few(fewer)}`] : []),
    `put in among the parts, each after a dash on a line of its own: ${shown.join('; ')}`,
    ...(shown.length < lines.length
      ? [`and ${lines.length - shown.length} more; the traveller tells what hangs on each`]
      : []),
  ];
  return `To have the same by hand, ${steps.join('; ')}.`;
}

/** The parts by the entry of the job that they came of. */
function entriesOf({ parts }: Job): ReadonlyMap<string, readonly JobPart[]> {
  const entries = new Map<string, JobPart[]>();
  for (const part of parts) {
    const key = part.entry ?? part.name;
    entries.set(key, [...(entries.get(key) ?? []), part]);
  }
  return entries;
}

/** At least one. */
function upTo(lines: readonly string[], most: number): readonly string[] {
  let length = 0;
  return lines.filter((line, i) => {
    length += line.length;
    return i === 0 || length <= most;
  });
}

const few = (names: readonly string[]): string =>
  names.length <= mostNames
    ? names.join(', ')
    : `${names.slice(0, mostNames - 1).join(', ')} and ${names.length - mostNames + 1} more`;

type Written = ReadonlyMap<string, JobPart['written']>;

const group = (...words: readonly (string | undefined)[]): string =>
  `{ ${words.filter((word) => word !== undefined && word !== '').join(', ')} }`;

const pieceOf = (piece: string | undefined): string => (piece === undefined ? '' : `piece: ${flow(piece)}`);

function treeLine(tree: JobPart, written: Written): string {
  const members = (tree.tree ?? []).map(({ name, part, piece, count }) =>
    group(
      `name: ${flow(name)}`,
      `part: ${flow(part)}`,
      pieceOf(piece),
      `count: ${count}`,
      written.get(name)?.casting,
    ),
  );
  const [first] = tree.tree ?? [];
  return group(
    `name: ${flow(tree.name)}`,
    `alloy: ${flow(tree.alloy)}`,
    `quantity: ${mouldsFor(tree)}`,
    written.get(first?.name ?? '')?.gating,
    `tree: [${members.join(', ')}]`,
  );
}

const partLine = (
  { name, part, piece, quantity, alloy, gates }: JobPart,
  written: JobPart['written'],
): string =>
  group(
    `name: ${flow(name)}`,
    `part: ${flow(part)}`,
    pieceOf(piece),
    `quantity: ${quantity}`,
    gates === undefined ? '' : `gates: ${gates}`,
    `alloy: ${flow(alloy)}`,
    written?.casting,
    written?.gating,
  );
