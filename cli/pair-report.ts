import { appraise } from '../core/gear/pair-appraisal.js';
import type { AnyRankedPair } from '../core/gear/pair-ranking.js';
import { contactRows } from '../core/pair/contact-rows.js';
import { memberRows } from '../core/pair/member-rows.js';
import { memberNames } from '../core/pair/parts.js';
import { plain } from '../core/pair/rows.js';
import { told } from '../core/pair/told.js';
import { sentence } from '../core/report/findings.js';
import { wrap } from '../core/report/wrap.js';
import { formatLength, formatTorque, type LengthUnit } from '../core/units/index.js';
import { bullet, printed, twoRow } from './pair-sheet.js';

/** The candidates, one line each, 80 columns. The torque is what gear 1 may carry. */
export function formatCandidates(pairs: readonly AnyRankedPair[], unit: LengthUnit): string {
  const isRack = pairs[0]?.mesh === 'rack';
  const rows = pairs.map((p, i) => [
    String(i + 1),
    isRack ? String(p.gear.teeth) : `${p.gear.teeth}/${p.mate.teeth}`,
    p.mesh === 'rack'
      ? formatLength(p.facts.travelPerTurn, unit, { digits: 2 })
      : plain(p.ratio as number, 3),
    p.module.series === 'DP'
      ? `DP ${plain(p.module.diametralPitch as number, 3)}`
      : plain(p.gear.normalModule, 4),
    `${plain((p.gear.helixAngle * 180) / Math.PI, 2)}°`,
    plain(p.gear.profileShift, 3),
    ...(isRack ? [] : [plain(p.mate.profileShift, 3)]),
    formatLength(appraise(p).distance, unit, { digits: unit === 'in' ? 4 : 3 }),
    plain(appraise(p).totalContactRatio, 2),
    p.load === null ? '' : formatTorque(p.load.strength.gearTorque, unit),
    plain(p.score, 1),
  ]);
  const heads = [
    'no.',
    isRack ? 'z_1' : 'z',
    isRack ? 'a turn' : 'ratio',
    'm_n',
    'beta',
    'x_1',
    ...(isRack ? [] : ['x_2']),
    'a',
    pairs.some((p) => p.gear.helixAngle > 0) ? 'ε_γ' : 'ε_α',
    'torque',
    'demerit',
  ];
  const widths = heads.map((h, i) => Math.max(h.length, ...rows.map((r) => (r[i] as string).length)));
  return [
    ...[heads, ...rows].map((r) => ` ${r.map((c, i) => c.padEnd(widths[i] as number)).join(' ')}`.trimEnd()),
    '',
    wrap(
      'Torque: what the teeth of gear 1 are reckoned good for. Demerit: what tells against the pair in all, the best first.',
      ' ',
      ' ',
    ),
  ].join('\n');
}

/** Everything that the check of one pair says. */
export function formatPairReport(p: AnyRankedPair, number: number, count: number, unit: LengthUnit): string {
  const title =
    p.mesh === 'rack'
      ? `${p.gear.teeth} teeth on a rack of ${p.rackTeeth}${p.pieces > 1 ? `, in ${p.pieces} pieces of ${p.mate.teeth}` : ''}`
      : `${p.gear.teeth} ${p.mesh === 'internal' ? 'in a ring of' : 'and'} ${p.mate.teeth} teeth`;
  const place = count > 1 ? `, number ${number} of ${count}` : '';
  return [
    `Pair ${number}: ${title}${place}`,
    ...p.reasons.map((reason) => bullet(told(reason, unit, p.mesh))),
    '',
    ...printed(contactRows(p, unit)),
    '',
    twoRow('', memberNames[p.mesh]),
    ...printed(memberRows(p, unit)),
    ...findingRows(p, unit),
  ].join('\n');
}

function findingRows(p: AnyRankedPair, unit: LengthUnit): readonly string[] {
  const findings = [...p.findings, ...(p.load?.findings ?? [])];
  if (findings.length === 0) return [];
  return [
    '',
    ...findings.map((x) =>
      wrap(
        `${told(sentence(x.message), unit, p.mesh)} ${told(sentence(x.remedy), unit, p.mesh)} [${x.code}]`,
        `  ${x.severity.padEnd(5)} `,
        '        ',
      ),
    ),
  ];
}
