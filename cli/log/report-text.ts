import { alloyNames, findAlloy } from '../../core/foundry/alloys/index.js';
import type { FaultRelation, FaultReport, FaultSetting, Share } from '../../core/log/faults.js';
import type { RatioEstimate } from '../../core/log/ratio-estimate.js';
import type { LogReport } from '../../core/log/report.js';
import { sentence } from '../../core/report/findings.js';
import type { View } from '../../core/report/format.js';
import { plain, wrap } from '../../core/report/wrap.js';
import { formatDuration, formatTemperature } from '../../core/units/index.js';

const factor = (x: number): string => x.toFixed(4);
const interval = (e: RatioEstimate): string =>
  e.interval === null ? 'one reading' : `${factor(e.interval.low)} to ${factor(e.interval.high)}`;

/** The whole report for a terminal of 80 columns; ends with a line break. */
export function formatReport(report: LogReport, view: View): string {
  const { pours, first, last } = report;
  if (pours === 0) return 'No pours in the log.\n';
  const days = first === last ? first : `${first} to ${last}`;
  const sections = [
    [`${many(pours, 'pour')}, ${days}`],
    growthLines(report),
    printerLines(report),
    ...report.faults.map((f) => faultLines(f, view)),
  ];
  return `${sections.map((lines) => lines.join('\n')).join('\n\n')}\n`.replaceAll('\u00A0', ' ');
}

const many = (n: number, word: string): string => `${n} ${word}${n === 1 ? '' : 's'}`;

const columns = (cells: readonly string[], widths: readonly number[]): string =>
  `  ${cells.map((c, i) => c.padEnd(widths[i] ?? 0)).join('  ')}`.trimEnd();

/** Rule and source once where all rows have the same source. */
const basisLines = (estimates: readonly RatioEstimate[]): readonly string[] => [
  ...new Set(estimates.map(({ basis }) => wrap(sentence(basis.rule), '  ', '  '))),
  ...new Set(estimates.map(({ basis }) => wrap(sentence(`Source: ${basis.source}`), '  ', '  '))),
];

const leftOut = ({ outliers }: RatioEstimate): readonly string[] =>
  outliers.map(({ date, flask, size, ratio }) => {
    const which = [date, flask, size ?? 'the whole pour'].filter((x) => x !== null).map((x) => plain(x));
    return wrap(`Left out: ${which.join(', ')}: ${factor(ratio)} stands apart from the others.`, '  ', '  ');
  });

function growthLines({ growth, withoutPattern }: LogReport): readonly string[] {
  const head = 'Growth, pattern size / rough casting size';
  const unmeasured =
    withoutPattern === 0
      ? []
      : [
          wrap(
            `${many(withoutPattern, 'casting size')} without a measured pattern ${withoutPattern === 1 ? 'is' : 'are'} not counted: the printer’s error is in ${withoutPattern === 1 ? 'it' : 'them'}.`,
            '  ',
            '  ',
          ),
        ];
  if (growth.length === 0)
    return [head, '  No pattern and casting were measured at the same place.', ...unmeasured];
  const name = Math.min(26, Math.max(...growth.map((g) => g.alloy.length), 8));
  const mould = Math.min(18, Math.max(...growth.map((g) => g.investment.length), 8));
  const widths = [name, mould, 6, 16];
  const row = (a: string, b: string, e: RatioEstimate): string =>
    columns([a, b, factor(e.value), interval(e), many(e.n, e.unit.slice(0, -1))], widths);
  return [
    head,
    columns(['alloy', 'mould', 'growth', '95 % interval', 'from'], widths),
    ...growth.flatMap(({ alloy, investment, all, axes }) => [
      row(plain(alloy), plain(investment), all),
      ...(axes.xy && axes.z ? [row('  across', '', axes.xy), row('  upward', '', axes.z)] : []),
      ...leftOut(all),
      ...handbook(alloy, all),
    ]),
    ...unmeasured,
    ...basisLines(growth.map((g) => g.all)),
  ];
}

/** What a job without the log would use, when the log shows something else. */
function handbook(name: string, { interval: found, unit }: RatioEstimate): readonly string[] {
  const alloy = alloyNames.includes(name) ? findAlloy(name) : undefined;
  if (alloy === undefined || found === null || unit === 'readings') return [];
  const usual = 1 + alloy.contraction.usual;
  const agrees = usual >= found.low && usual <= found.high;
  return agrees
    ? [wrap(`The handbook’s ${factor(usual)} agrees.`, '  ', '  ')]
    : [
        wrap(
          `The handbook’s ${factor(usual)} is outside the interval: growth: log in a job uses the log’s.`,
          '  ',
          '  ',
        ),
      ];
}

function printerLines({ printer }: LogReport): readonly string[] {
  const head = 'Printer, measured pattern / size it was told';
  if (printer.length === 0) return [head, '  No pattern was measured beside its nominal size.'];
  const widths = [16, 6, 6, 16, 10];
  return [
    head,
    columns(['plastic', 'axis', 'error', '95 % interval', 'correction', 'from'], widths),
    ...printer.flatMap(({ plastic, axis, error, correction }) => [
      columns(
        [
          plain(plastic ?? 'not noted'),
          axis,
          factor(error.value),
          interval(error),
          factor(correction),
          many(error.n, error.unit.slice(0, -1)),
        ],
        widths,
      ),
      ...leftOut(error),
    ]),
    wrap('The correction is 1 / error: printerCorrection in a job.', '  ', '  '),
  ];
}

const settingNames: Readonly<Record<FaultSetting, string>> = {
  metalTemperature: 'metal temperature',
  flaskTemperature: 'flask temperature',
  burnoutHold: 'burnout hold',
};

const percent = (x: number): string => `${Math.round(100 * x)}`;
const shareText = ({ count, total, interval: i }: Share): string =>
  `${count} of ${total}${i === null ? '' : ` (${percent(i.low)} to ${percent(i.high)} %)`}`;

function faultLines(report: FaultReport, view: View): readonly string[] {
  const found = Object.entries(report.counts).filter(([, { count }]) => count > 0);
  const head = `Faults, ${plain(report.alloy)}, ${many(report.pours, 'pour')}`;
  if (found.length === 0) return [head, '  None.'];
  return [
    head,
    ...found.flatMap(([fault, share]) => [
      `  ${fault.padEnd(10)} ${shareText(share)}`,
      ...report.relations.filter((r) => r.fault === fault).flatMap((r) => relationLines(r, view)),
    ]),
    wrap(
      `${report.basis.rule.charAt(0).toUpperCase()}${report.basis.rule.slice(1)}. What goes together need not be the cause.`,
      '  ',
      '  ',
    ),
    wrap(`Source: ${report.basis.source}.`, '  ', '  '),
  ];
}

function relationLines(relation: FaultRelation, view: View): readonly string[] {
  const { setting, split, verdict, adjusted, bands } = relation;
  const show = (x: number): string =>
    setting === 'burnoutHold' ? formatDuration(x) : formatTemperature(x, view.degrees);
  const halves = `${shareText(split.below)} below ${show(split.at)}, ${shareText(split.above)} from there up`;
  const said = {
    related: `related (p ${adjusted.toFixed(3)})`,
    'not shown': `no connection shown (p ${adjusted.toFixed(2)})`,
    'too few': 'too few to say',
  }[verdict];
  const rows = bands.map((b) => `      ${`${show(b.from)} to ${show(b.to)}`.padEnd(22)} ${shareText(b)}`);
  return [
    wrap(`${settingNames[setting]}: ${said}; ${halves}`, '    ', '      '),
    ...(verdict === 'too few' ? [] : rows),
  ];
}
