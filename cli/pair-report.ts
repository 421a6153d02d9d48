import { gearGeometry } from '../core/gear/gear-geometry.js';
import type { MeshKind } from '../core/gear/mesh-backlash.js';
import { appraise } from '../core/gear/pair-appraisal.js';
import type { AnyRankedPair } from '../core/gear/pair-ranking.js';
import { sentence } from '../core/report/findings.js';
import { readersUnits } from '../core/report/reader-units.js';
import { wrap } from '../core/report/wrap.js';
import { formatAngle, formatLength, formatTorque, type LengthUnit } from '../core/units/index.js';
import { lengthIn, memberRows } from './pair-member-rows.js';
import { memberNames } from './pair-parts.js';
import { bullet, oneRow, plain, twoRow } from './pair-sheet.js';

const view = (unit: LengthUnit) => ({ lengthUnit: unit, degrees: 'C' }) as const;
/** Sentences of the core in the reader's units and the pair's own words, with plain spaces for a terminal. */
function told(text: string, unit: LengthUnit, mesh: MeshKind): string {
  const [first, second] = memberNames[mesh];
  const named =
    mesh === 'external'
      ? text
      : text.replace(/\bgear 1\b/gi, `the ${first}`).replace(/\bgear 2\b/gi, `the ${second}`);
  const lengths = readersUnits(named, view(unit)).replaceAll('\u00A0', ' ');
  return unit === 'mm'
    ? lengths
    : lengths.replace(
        /(\d+(?:\.\d+)?) N·m/g,
        (all, torque: string) => `${all} (${formatTorque(Number(torque) * 1000, 'in')})`,
      );
}

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
    ...contactRows(p, unit),
    '',
    twoRow('', memberNames[p.mesh]),
    ...memberRows(p, unit),
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

function contactRows(p: AnyRankedPair, unit: LengthUnit): readonly string[] {
  const mm = lengthIn(unit);
  const line = appraise(p);
  const spur = p.gear.helixAngle === 0;
  const angle =
    p.mesh === 'rack' ? gearGeometry(p.gear).transversePressureAngle : p.facts.workingPressureAngle;
  return [
    oneRow(p.mesh === 'rack' ? 'axis to pitch line of the rack a' : 'centre distance a', mm(line.distance)),
    ...(p.mesh === 'rack'
      ? [oneRow('travel in one turn', mm(p.facts.travelPerTurn))]
      : [oneRow('reference centre distance a_d', mm(p.facts.referenceCentreDistance))]),
    oneRow('working pressure angle α_wt', formatAngle(angle, 'deg')),
    oneRow('face width b', mm(p.faceWidth)),
    oneRow('contact ratio ε_α', plain(line.contactRatio, 3)),
    ...(p.mesh === 'external' && Math.abs(p.facts.nominalContactRatio - line.contactRatio) > 5e-4
      ? [oneRow('  between the tip circles alone', plain(p.facts.nominalContactRatio, 3))]
      : []),
    oneRow('overlap ratio ε_β', spur ? '0, straight teeth' : plain(line.overlapRatio, 3)),
    oneRow('total contact ratio ε_γ', plain(line.totalContactRatio, 3)),
  ];
}
