import type { ChargePlan } from '../foundry/plans.js';
import { castingsOf } from '../job/castings-of.js';
import { isInShell, type PartSummary, type Summary } from '../job/summary.js';
import {
  collectFindings,
  countFindings,
  type FindingGroup,
  findingLines,
  namesOf,
  ofTheKind,
  sentence,
  tally,
} from './findings.js';
import { createFormat, type Format, type View } from './format.js';
import { leastVoid } from './freeze/places.js';
import { forReader } from './reader-units.js';
import { shareNotMade } from './share-not-made.js';
import { plain, width, wrap } from './wrap.js';

/** Holds number and unit together until the lines are broken. */
const noBreak = '\u00A0';

const clip = (text: string, length: number): string =>
  [...text].length <= length ? text : `${[...text].slice(0, length - 1).join('')}…`;

/** Lines of a list that a terminal still shows; the papers have all. */
const mostLines = 60;

/** The first of a long list, and how many more there are. */
const shorten = <T>(list: readonly T[]): { readonly shown: readonly T[]; readonly more: number } =>
  list.length <= mostLines
    ? { shown: list, more: 0 }
    : { shown: list.slice(0, mostLines), more: list.length - mostLines };

const heading = (label: string): string => label.padEnd(12);
const entry = (label: string, text: string): string => wrap(text, heading(label), ' '.repeat(12));

function partsTable(all: readonly PartSummary[], f: Format): string[] {
  const { shown: parts, more } = shorten(all);
  const head = [
    'part',
    'off',
    'alloy',
    `size, ${f.lengthUnit}`,
    parts.some((p) => p.patternsPerTree > 1) ? 'to melt, a mould' : 'to melt, each',
  ];
  const size = (p: { readonly meshes: Pick<PartSummary['meshes'], 'part'> }): string =>
    p.meshes.part.size.map(f.roughNumber).join(' × ');
  const rows = parts.flatMap((p) => [
    [
      plain(p.name),
      String(p.quantity),
      plain(p.alloy),
      p.members ? `tree of ${p.patternsPerTree}` : size(p),
      f.mass(p.mass.charge),
    ],
    ...(p.members ?? []).map((m) => [`- ${plain(m.name)}`, String(m.quantity), '', size(m), '']),
  ]);
  const widest = (c: number, most: number): number =>
    Math.min(most, Math.max(...[head, ...rows].map((r) => [...r[c]!].length)));
  const others = [widest(1, 5), widest(2, 16), widest(3, 22), widest(4, 16)];
  const widths = [widest(0, width - 2 - others.reduce((a, b) => a + 2 + b, 0)), ...others];
  const alignRight = [false, true, false, true, true];
  const table = [head, ...rows].map((r) => {
    const cells = r.map((cell, c) => {
      const text = clip(cell, widths[c]!);
      const pad = ' '.repeat(widths[c]! - [...text].length);
      return alignRight[c] ? pad + text : text + pad;
    });
    return `  ${cells.join('  ')}`.trimEnd();
  });
  return more === 0 ? table : [...table, `  and ${more} more, in the traveller`];
}

/** One kind of finding a line or two, however many parts have it. */
const findingText = (groups: readonly FindingGroup[]): string[] =>
  findingLines(groups).map(({ severity, code, parts, finding }) => {
    const names = namesOf(parts);
    const told = finding
      ? `${sentence(finding.message)} ${sentence(finding.remedy)}`
      : ofTheKind('summary.json');
    const subject = names === '' ? '' : `${names}: `;
    return wrap(`${subject}${told} [${code}]`, `  ${severity.padEnd(5)} `, '        ');
  });

/** What is left out of the job, and why; nothing where it is made in full. */
function notMadeLines(summary: Summary): string[] {
  const { notMade = [] } = summary;
  if (notMade.length === 0) return [];
  const groups = notMade.map(({ name, findings }) => ({
    part: name,
    findings: findings.filter((f) => f.severity === 'stop'),
  }));
  return [
    entry('NOT MADE', `${shareNotMade(summary)}; all else here is without them`),
    ...findingText(groups),
    '',
  ];
}

/** The last line of a run that left parts out: which, and what to do. Empty where the job is made in full. */
export function formatNotMade(summary: Summary): string {
  const { notMade = [] } = summary;
  if (notMade.length === 0) return '';
  const names = namesOf(notMade.map((p) => p.name));
  return `${wrap(`Not made: ${shareNotMade(summary)}, ${names}. Mend the job and run the same command again.`, '', '')}\n`;
}

/** Bought or cut for the castings; what several need is counted together. */
function fittingLines(parts: readonly PartSummary[]): string[] {
  const counts = new Map<string, number>();
  for (const p of parts)
    for (const { text, quantity } of p.fittings)
      counts.set(text, (counts.get(text) ?? 0) + quantity * p.quantity);
  return counts.size === 0
    ? []
    : [entry('To fit', [...counts].map(([text, n]) => `${n} × ${plain(text)}`).join('; '))];
}

/** `6` or `6 to 8`. */
function coatCounts({ parts }: Summary): string {
  const counts = parts.filter(isInShell).map((p) => p.shell.coats);
  const [least, most] = [Math.min(...counts), Math.max(...counts)];
  return least === most ? String(least) : `${least} to ${most}`;
}

/** What the heats are weighed out to, in all. */
const chargeOf = ({ charge, melt }: ChargePlan, f: Format): string =>
  melt === undefined ? f.massDual(charge) : f.weighedDual(charge, melt.scaleStep);

/** How each mould fills and freezes, where that was calculated: a line or two a part. */
function freezeLines(all: readonly PartSummary[], f: Format): string[] {
  const { shown, more } = shorten(all.filter((p) => p.freeze));
  const lines = shown.flatMap(({ name, freeze }, i) => {
    if (freeze === undefined) return [];
    const { fill, solid } = freeze;
    const short = fill.margin < fill.marginLimit ? ', too little' : '';
    const voids = freeze.latePlaces.reduce((sum, p) => sum + p.void, 0);
    const text = [
      `full in ${f.duration(fill.castings)}`,
      `metal ${fill.margin < 9.95 ? fill.margin.toFixed(1) : fill.margin.toFixed(0)} times as long liquid as it needs to fill${short}`,
      `solid after ${f.duration(solid.castings)}`,
      voids < leastVoid ? 'no void seen' : `may leave voids of ${f.smallVolume(voids)} in all`,
    ].join(', ');
    return [entry(i === 0 ? 'Freezing' : '', `${plain(name)}: ${text}`)];
  });
  return more === 0 ? lines : [...lines, entry('', `and ${more} more, in the traveller`)];
}

/** Of which metals on the shelf, where the shop lists any that make it. */
function mixLines({ melt }: ChargePlan, f: Format): string[] {
  if (!melt?.mix?.ok) return [];
  const metals = melt.mix.metals.map((m) => {
    const left = m.left === undefined ? '' : `, ${f.weighed(m.left, melt.scaleStep)} left`;
    return `${plain(m.name)} ${f.weighed(m.mass, melt.scaleStep)}${left}`;
  });
  return [entry('Mixed of', metals.join('; '))];
}

/**
 * The short report a run ends with, for a terminal of 80 columns: parts, plates, metal, investment, burnout,
 * findings and cautions. Plain text without colours; ends with a line break.
 */
export function formatConsole(job: Summary, view: View): string {
  const summary = forReader(job, view);
  const f = createFormat(view, noBreak);
  const groups = collectFindings(summary);
  const plates = shorten(summary.plates);
  const moulds = summary.parts.reduce((n, p) => n + p.moulds, 0);
  const pourOf = (alloy: string): string => {
    const plan = summary.pour.find((p) => p.alloy === alloy);
    return plan === undefined ? '' : `, pour at ${f.temperature(plan.metalTemperature)}`;
  };
  const hazards = [
    ...new Set(summary.cautions.map((c) => plain(c.hazard.charAt(0).toLowerCase() + c.hazard.slice(1)))),
  ];
  const lines = [
    wrap(`${summary.job.title} (${summary.job.name})`, '', ''),
    '',
    ...partsTable(summary.parts, f),
    '',
    ...notMadeLines(summary),
    ...plates.shown.map((p) =>
      entry(
        p.name,
        `${p.placements.length} ${p.placements.length === 1 ? 'pattern' : 'patterns'}, ${p.batch === undefined ? '' : `${p.batch}, `}${f.percent(p.filled, 0)} of the bed inside its margin, ${f.rough(p.height)} high, ${f.mass(p.plastic)} plastic if solid; ${Object.values(p.files).join(', ')}`,
      ),
    ),
    ...(plates.more === 0 ? [] : [entry('', `and ${plates.more} more plates, in the traveller`)]),
    ...summary.charge.flatMap((c) => [
      entry('Metal', `${c.title}: weigh out ${chargeOf(c, f)}${pourOf(c.alloy)}`),
      ...mixLines(c, f),
    ]),
    entry(
      'Investment',
      summary.coating
        ? `${f.mass(summary.coating.slurry)} slurry, ${f.mass(summary.coating.stucco)} stucco for ${moulds} ${moulds === 1 ? 'shell' : 'shells'} of ${coatCounts(summary)} coats and seal; ${f.duration(summary.coating.total)} to coat and dry`
        : `${f.weighed(summary.investment.weigh.powder, summary.investment.weigh.step)} powder, ${f.weighed(summary.investment.weigh.water, summary.investment.weigh.step)} water for ${moulds} ${moulds === 1 ? 'flask' : 'flasks'}; working time ${f.duration(summary.investment.workingTime)}`,
    ),
    entry(
      'Burnout',
      `${f.duration(summary.burnout.total)}, hottest ${f.temperature(summary.burnout.peak)}, ${summary.coating ? 'shells leave the kiln at' : 'flasks at'} ${f.temperature(summary.burnout.castingTemperature)} for the pour`,
    ),
    ...freezeLines(summary.parts, f),
    ...fittingLines(castingsOf(summary.parts)),
    entry('Findings', tally(countFindings(groups))),
    ...findingText(groups),
    '',
    wrap(
      `${hazards.length === 0 ? '' : `Take care: ${hazards.join('; ')}. The cautions stand at each step of the traveller. `}Computed advice, not a guarantee: makers' datasheets, local codes and licensed practice come first.`,
      '',
      '',
    ),
  ];
  return `${lines.join('\n')}\n`.replaceAll(noBreak, ' ');
}
