import type { ChargePlan } from '../foundry/plans.js';
import { isInShell, type PartSummary, type Summary } from '../job/summary.js';
import { collectFindings, countFindings, sentence, tally } from './findings.js';
import { createFormat, type Format, type View } from './format.js';
import { leastVoid } from './freeze/places.js';
import { forReader } from './reader-units.js';
import { plain, width, wrap } from './wrap.js';

/** Holds number and unit together until the lines are broken. */
const noBreak = '\u00A0';

const clip = (text: string, length: number): string =>
  [...text].length <= length ? text : `${[...text].slice(0, length - 1).join('')}…`;

const heading = (label: string): string => label.padEnd(12);
const entry = (label: string, text: string): string => wrap(text, heading(label), ' '.repeat(12));

function partsTable(parts: readonly PartSummary[], f: Format): string[] {
  const head = [
    'part',
    'off',
    'alloy',
    `size, ${f.lengthUnit}`,
    parts.some((p) => p.patternsPerTree > 1) ? 'to melt, a mould' : 'to melt, each',
  ];
  const rows = parts.map((p) => [
    plain(p.name),
    String(p.quantity),
    plain(p.alloy),
    p.meshes.part.size.map(f.roughNumber).join(' × '),
    f.mass(p.mass.charge),
  ]);
  const widest = (c: number, most: number): number =>
    Math.min(most, Math.max(...[head, ...rows].map((r) => [...r[c]!].length)));
  const others = [widest(1, 5), widest(2, 16), widest(3, 22), widest(4, 16)];
  const widths = [widest(0, width - 2 - others.reduce((a, b) => a + 2 + b, 0)), ...others];
  const alignRight = [false, true, false, true, true];
  return [head, ...rows].map((r) => {
    const cells = r.map((cell, c) => {
      const text = clip(cell, widths[c]!);
      const pad = ' '.repeat(widths[c]! - [...text].length);
      return alignRight[c] ? pad + text : text + pad;
    });
    return `  ${cells.join('  ')}`.trimEnd();
  });
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
function freezeLines(parts: readonly PartSummary[], f: Format): string[] {
  return parts.flatMap(({ name, freeze }, i) => {
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
    return [entry(parts.findIndex((p) => p.freeze) === i ? 'Freezing' : '', `${plain(name)}: ${text}`)];
  });
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
    ...summary.plates.map((p) =>
      entry(
        p.name,
        `${p.placements.length} ${p.placements.length === 1 ? 'pattern' : 'patterns'}, ${f.rough(p.height)} high, ${f.mass(p.plastic)} plastic if solid; ${Object.values(p.files).join(', ')}`,
      ),
    ),
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
    ...fittingLines(summary.parts),
    entry('Findings', tally(countFindings(groups))),
    ...groups.flatMap((g) =>
      g.findings.map((x) =>
        wrap(
          `${g.part === null ? '' : `${g.part}: `}${sentence(x.message)} ${sentence(x.remedy)} [${x.code}]`,
          `  ${x.severity.padEnd(5)} `,
          '        ',
        ),
      ),
    ),
    '',
    wrap(
      `${hazards.length === 0 ? '' : `Take care: ${hazards.join('; ')}. The cautions stand at each step of the traveller. `}Computed advice, not a guarantee: makers' datasheets, local codes and licensed practice come first.`,
      '',
      '',
    ),
  ];
  return `${lines.join('\n')}\n`.replaceAll(noBreak, ' ');
}
