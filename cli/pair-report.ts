import { gearGeometry, minimumProfileShift, tipThickness } from '../core/gear/gear-geometry.js';
import { internalGeometry } from '../core/gear/internal.js';
import type { MeshKind } from '../core/gear/mesh-backlash.js';
import { appraise } from '../core/gear/pair-appraisal.js';
import { pairLimits } from '../core/gear/pair-findings.js';
import type { AnyRankedPair, Ranked } from '../core/gear/pair-ranking.js';
import { rackSliding } from '../core/gear/rack-pair.js';
import type { TriedInternalPair, TriedPair, TriedRackPair } from '../core/gear/tried-pair.js';
import { sentence } from '../core/report/findings.js';
import { readersUnits } from '../core/report/reader-units.js';
import { wrap } from '../core/report/wrap.js';
import { formatAngle, formatLength, formatTorque, type LengthUnit } from '../core/units/index.js';
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
  const rows = p.mesh === 'external' ? externalRows : p.mesh === 'internal' ? internalRows : rackRows;
  return [
    `Pair ${number}: ${title}${place}`,
    ...p.reasons.map((reason) => bullet(told(reason, unit, p.mesh))),
    '',
    ...contactRows(p, unit),
    '',
    twoRow('', memberNames[p.mesh]),
    ...(rows as (pair: AnyRankedPair, unit: LengthUnit) => readonly string[])(p, unit),
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

const lengthIn =
  (unit: LengthUnit) =>
  (value: number): string =>
    formatLength(value, unit, { digits: unit === 'in' ? 4 : 3 }).replace('-', '−');

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

const slide = (value: number): string => (Number.isFinite(value) ? plain(value, 2) : 'at the base circle');
const slides = ([a, b]: readonly [number, number]): [string, string] => [slide(a), slide(b)];
/** How far a tip reaches where it should not, on the line of action. */
const below =
  (mm: (value: number) => string) =>
  (value: number): string =>
    value > 1e-6 ? mm(value) : 'none';
/** Least gap of a tip and the other's flank and fillet; contact itself is 0. */
const cut = (mm: (value: number) => string, gap: number): string =>
  gap < -1e-3 ? `${mm(-gap)} deep` : 'none';
const leastClearance = (m: number): number => pairLimits.tipClearance * m;

const shiftRows = (p: AnyRankedPair): string[] => [
  twoRow('profile shift x', [
    plain(p.gear.profileShift, 4),
    p.mesh === 'rack' ? '–' : plain(p.mate.profileShift, 4),
  ]),
  twoRow('least x without undercut', [
    plain(minimumProfileShift(p.gear), 4),
    p.mesh === 'external' ? plain(minimumProfileShift(p.mate), 4) : '–',
  ]),
  twoRow('undercut', [
    undercut(p.gear.profileShift < minimumProfileShift(p.gear) - 1e-9),
    p.mesh === 'external' ? undercut(p.mate.profileShift < minimumProfileShift(p.mate) - 1e-9) : '–',
  ]),
];
const undercut = (yes: boolean): string => (yes ? 'yes' : 'no');

function externalRows(
  { gear, mate, facts, ...rest }: Ranked<TriedPair>,
  unit: LengthUnit,
): readonly string[] {
  const mm = lengthIn(unit);
  const m = gear.normalModule;
  const both = (label: string, of: (member: typeof facts.gear) => string) =>
    twoRow(label, [of(facts.gear), of(facts.mate)]);
  return [
    twoRow(
      'reference diameter d',
      [gear, mate].map((s) => mm(gearGeometry(s).referenceDiameter)) as [string, string],
    ),
    both('tip diameter d_a', (f) => mm(f.tipDiameter)),
    both('root diameter d_f', (f) => mm(f.rootDiameter)),
    both('working diameter d_w', (f) => mm(f.workingDiameter)),
    both('involute starts at d_Ff', (f) => mm(f.formDiameter)),
    both('contact starts at d_Nf', (f) => mm(f.activeRootDiameter)),
    ...shiftRows({ gear, mate, facts, ...rest }),
    both('tip thickness s_an', (f) => `${mm(f.tipThickness)} (${plain(f.tipThickness / m, 2)} m)`),
    both('specific sliding, root', (f) => slide(f.slidingAtRoot)),
    both('specific sliding, tip', (f) => slide(f.slidingAtTip)),
    both('tip to the other’s root', (f) => mm(f.tipClearance)),
    oneRow('  least for unfinished teeth', mm(leastClearance(m))),
    both('contact below its involute', (f) => below(mm)(f.belowInvolute)),
    both('other’s tip in its fillet', (f) => cut(mm, f.tipGap)),
  ];
}

function internalRows(p: Ranked<TriedInternalPair>, unit: LengthUnit): readonly string[] {
  const mm = lengthIn(unit);
  const { gear, mate, facts } = p;
  const [g, r] = [gearGeometry(gear), internalGeometry(mate)];
  const ringTip = r.normalThickness; // at the reference cylinder
  return [
    twoRow('reference diameter d', [mm(g.referenceDiameter), mm(r.referenceDiameter)]),
    twoRow('tip diameter d_a', [mm(g.tipDiameter), mm(r.tipDiameter)]),
    twoRow('root diameter d_f', [mm(g.rootDiameter), mm(r.rootDiameter)]),
    twoRow('outside diameter', ['–', mm(p.outsideDiameter)]),
    ...shiftRows(p),
    twoRow('tip thickness s_an', [mm(tipThickness(gear)), '–']),
    twoRow('tooth thickness s_n at d', [mm(g.normalThickness), mm(ringTip)]),
    twoRow('specific sliding, root', slides([facts.pinionSliding[0], facts.ringSliding[1]])),
    twoRow('specific sliding, tip', slides([facts.pinionSliding[1], facts.ringSliding[0]])),
    twoRow('tip to the other’s root', [mm(facts.pinionTipClearance), mm(facts.ringTipClearance)]),
    oneRow('  least for unfinished teeth', mm(leastClearance(gear.normalModule))),
    twoRow('contact below its involute', [
      below(mm)(facts.belowPinionInvolute),
      below(mm)(facts.beyondRingInvolute),
    ]),
    twoRow('other’s tip in its teeth', [cut(mm, facts.ringTipGap), cut(mm, facts.pinionTipGap)]),
    oneRow(
      'assembly',
      facts.radialRoom < -pairLimits.overlap
        ? 'endwise only: along a radius the tips meet'
        : 'along a radius or endwise',
    ),
  ];
}

function rackRows(p: Ranked<TriedRackPair>, unit: LengthUnit): readonly string[] {
  const mm = lengthIn(unit);
  const { gear, mate, facts } = p;
  const g = gearGeometry(gear);
  const m = mate.normalModule;
  const pitch = facts.travelPerTurn / gear.teeth;
  const addendum = mate.addendum * m - (mate.tipShortening ?? 0);
  const rackTip =
    gearGeometry({ ...mate, profileShift: 0 }).normalThickness -
    2 * addendum * Math.tan(mate.normalPressureAngle);
  return [
    twoRow('reference diameter d', [mm(g.referenceDiameter), '–']),
    twoRow('tip diameter d_a', [mm(g.tipDiameter), '–']),
    twoRow('root diameter d_f', [mm(g.rootDiameter), '–']),
    twoRow('transverse pitch p_t', ['–', mm(pitch)]),
    twoRow('length of a piece', ['–', mm(pitch * mate.teeth)]),
    twoRow('addendum h_a', [mm((g.tipDiameter - g.referenceDiameter) / 2), mm(addendum)]),
    ...shiftRows(p),
    twoRow('tip thickness s_an', [mm(tipThickness(gear)), mm(rackTip)]),
    twoRow('specific sliding, root', slides([facts.pinionSliding[0], rackSliding(facts)])),
    twoRow('tip to the other’s root', [mm(facts.pinionTipClearance), mm(facts.rackTipClearance)]),
    oneRow('  least for unfinished teeth', mm(leastClearance(m))),
    twoRow('contact below its involute', [
      below(mm)(facts.belowPinionInvolute),
      below(mm)(facts.beyondRackFlank),
    ]),
    twoRow('other’s tip in its fillet', [cut(mm, facts.rackTipGap), cut(mm, facts.pinionTipGap)]),
  ];
}
