import { gearGeometry, minimumProfileShift, tipThickness } from '../gear/gear-geometry.js';
import { internalGeometry, internalTipThickness } from '../gear/internal.js';
import { pairLimits } from '../gear/pair-findings.js';
import type { AnyRankedPair, Ranked } from '../gear/pair-ranking.js';
import { rackSliding, rackTipThickness } from '../gear/rack-pair.js';
import type { TriedInternalPair, TriedPair, TriedRackPair } from '../gear/tried-pair.js';
import type { LengthUnit } from '../units/index.js';
import { lengthIn, oneRow, type PairRow, plain, twoRow } from './rows.js';

/** What a pair's check says of either member, in two columns. */
export function memberRows(p: AnyRankedPair, unit: LengthUnit): readonly PairRow[] {
  if (p.mesh === 'external') return externalRows(p, unit);
  return p.mesh === 'internal' ? internalRows(p, unit) : rackRows(p, unit);
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

const shiftRows = (p: AnyRankedPair): readonly PairRow[] => [
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
): readonly PairRow[] {
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
    both('tip thickness s_an', (f) => `${mm(f.tipThickness)} (${plain(f.tipThickness / m, 2)} m_n)`),
    both('specific sliding, root', (f) => slide(f.slidingAtRoot)),
    both('specific sliding, tip', (f) => slide(f.slidingAtTip)),
    both('tip to the other’s root', (f) => mm(f.tipClearance)),
    oneRow('  least for unfinished teeth', mm(leastClearance(m))),
    both('contact below its involute', (f) => below(mm)(f.belowInvolute)),
    both('other’s tip in its fillet', (f) => cut(mm, f.tipGap)),
  ];
}

function internalRows(p: Ranked<TriedInternalPair>, unit: LengthUnit): readonly PairRow[] {
  const mm = lengthIn(unit);
  const { gear, mate, facts } = p;
  const [g, r] = [gearGeometry(gear), internalGeometry(mate)];
  return [
    twoRow('reference diameter d', [mm(g.referenceDiameter), mm(r.referenceDiameter)]),
    twoRow('tip diameter d_a', [mm(g.tipDiameter), mm(r.tipDiameter)]),
    twoRow('root diameter d_f', [mm(g.rootDiameter), mm(r.rootDiameter)]),
    twoRow('outside diameter', ['–', mm(p.outsideDiameter)]),
    ...shiftRows(p),
    twoRow('tip thickness s_an', [mm(tipThickness(gear)), mm(internalTipThickness(mate))]),
    twoRow('tooth thickness s_n at d', [mm(g.normalThickness), mm(r.normalThickness)]),
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

function rackRows(p: Ranked<TriedRackPair>, unit: LengthUnit): readonly PairRow[] {
  const mm = lengthIn(unit);
  const { gear, mate, facts } = p;
  const g = gearGeometry(gear);
  const m = mate.normalModule;
  const pitch = facts.travelPerTurn / gear.teeth;
  const addendum = mate.addendum * m - (mate.tipShortening ?? 0);
  return [
    twoRow('reference diameter d', [mm(g.referenceDiameter), '–']),
    twoRow('tip diameter d_a', [mm(g.tipDiameter), '–']),
    twoRow('root diameter d_f', [mm(g.rootDiameter), '–']),
    twoRow('transverse pitch p_t', ['–', mm(pitch)]),
    twoRow('length of a piece', ['–', mm(pitch * mate.teeth)]),
    twoRow('addendum h_a', [mm((g.tipDiameter - g.referenceDiameter) / 2), mm(addendum)]),
    ...shiftRows(p),
    twoRow('tip thickness s_an', [mm(tipThickness(gear)), mm(rackTipThickness(mate))]),
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
