import type { RankedPair } from '../core/gear/pair-ranking.js';
import { sentence } from '../core/report/findings.js';
import { wrap } from '../core/report/wrap.js';
import { formatAngle, formatLength, type LengthUnit } from '../core/units/index.js';

const plain = (value: number, digits: number): string => String(Number(value.toFixed(digits)));

/** The candidates, one line each, 80 columns. */
export function formatCandidates(pairs: readonly RankedPair[], unit: LengthUnit): string {
  const rows = pairs.map((p, i) => [
    String(i + 1),
    `${p.gear.teeth}/${p.mate.teeth}`,
    p.ratio === null ? '' : plain(p.ratio, 4),
    p.module.series === 'DP'
      ? `DP ${plain(p.module.diametralPitch as number, 3)}`
      : plain(p.gear.normalModule, 4),
    `${plain((p.gear.helixAngle * 180) / Math.PI, 3)}°`,
    plain(p.gear.profileShift, 3),
    plain(p.mate.profileShift, 3),
    formatLength(p.facts.centreDistance, unit, { digits: 3 }),
    plain(p.facts.contactRatio, 2),
  ]);
  const heads = ['no.', 'z', 'ratio', 'm_n', 'beta', 'x_1', 'x_2', 'a', 'eps_a'];
  const widths = heads.map((h, i) => Math.max(h.length, ...rows.map((r) => (r[i] as string).length)));
  return [heads, ...rows]
    .map((r) => `  ${r.map((c, i) => c.padEnd(widths[i] as number)).join('  ')}`.trimEnd())
    .join('\n');
}

/** Everything that the check of one pair says. */
export function formatPairReport(p: RankedPair, number: number, unit: LengthUnit): string {
  const f = p.facts;
  const mm = (value: number): string => formatLength(value, unit, { digits: unit === 'in' ? 4 : 3 });
  const both = (name: string, of: (m: typeof f.gear) => string): string =>
    `  ${name.padEnd(34)}${of(f.gear).padEnd(16)}${of(f.mate)}`;
  const one = (name: string, value: string): string => `  ${name.padEnd(34)}${value}`;
  const ratio = (value: number | null): string => (value === null ? 'needs a face width' : plain(value, 3));
  const slide = (value: number): string => (Number.isFinite(value) ? plain(value, 2) : 'at the base circle');
  return [
    `Pair ${number}: ${p.gear.teeth} and ${p.mate.teeth} teeth`,
    ...p.reasons.map((reason) => wrap(reason, '  - ', '    ')),
    '',
    one('centre distance a', mm(f.centreDistance)),
    one('working pressure angle alpha_wt', formatAngle(f.workingPressureAngle, 'deg')),
    one('contact ratio eps_alpha', ratio(f.contactRatio)),
    one('overlap ratio eps_beta', ratio(f.overlapRatio)),
    one('total contact ratio eps_gamma', ratio(f.totalContactRatio)),
    one('backlash, circumferential', mm(f.backlash.circumferential)),
    one('backlash, normal (feeler gauge)', mm(f.backlash.normal)),
    '',
    `  ${''.padEnd(34)}${'gear 1'.padEnd(16)}gear 2`,
    both('tip diameter d_a', (m) => mm(m.tipDiameter)),
    both('root diameter d_f', (m) => mm(m.rootDiameter)),
    both('working diameter d_w', (m) => mm(m.workingDiameter)),
    both('tip thickness s_an', (m) => mm(m.tipThickness)),
    both('tip clearance', (m) => mm(m.tipClearance)),
    both('specific sliding, root', (m) => slide(m.slidingAtRoot)),
    both('specific sliding, tip', (m) => slide(m.slidingAtTip)),
    both('undercut', (m) => (m.undercut ? 'yes' : 'no')),
    ...(p.findings.length === 0
      ? []
      : [
          '',
          ...p.findings.map((x) =>
            wrap(
              `${sentence(x.message)} ${sentence(x.remedy)} [${x.code}]`,
              `  ${x.severity.padEnd(5)} `,
              '        ',
            ),
          ),
        ]),
    '',
  ].join('\n');
}
