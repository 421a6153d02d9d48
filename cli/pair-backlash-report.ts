import type { AnyRankedPair } from '../core/gear/pair-ranking.js';
import type { PairFieldValues } from '../core/pair/fields.js';
import { memberNames } from '../core/pair/parts.js';
import { playRows } from '../core/pair/play-rows.js';
import { asCast } from '../core/pair/request.js';
import { formatLength, type LengthUnit } from '../core/units/index.js';
import { oneRow, paragraph, printed, twoRow } from './pair-sheet.js';

/** The backlash, what it comes from and which teeth are thinned for it. */
export function formatBacklash(p: AnyRankedPair, fields: PairFieldValues, unit: LengthUnit): string {
  const mm = (value: number): string => formatLength(value, unit, { digits: unit === 'in' ? 4 : 3 });
  const { circumferential, normal, room, thinning } = playRows(p, unit);
  return [
    'Backlash',
    paragraph(reasonOf(p, fields, mm)),
    ...printed([circumferential]),
    ...shareRows(p, mm),
    ...printed([normal, room]),
    ...castRows(p, mm),
    twoRow('', memberNames[p.mesh]),
    ...printed([thinning]),
    paragraph(splitText(p, fields)),
  ].join('\n');
}

function reasonOf(
  { backlash: plan, mesh }: AnyRankedPair,
  fields: PairFieldValues,
  mm: (v: number) => string,
): string {
  const asked = mm(plan.asked ?? 0);
  switch (plan.kind) {
    case 'least':
      return `None asked for: normal backlash of ${asked}, the least of ISO/TR 10064-2 annex A for flanks dressed to size. Where they stay as cast, ask for --backlash ${asCast}.`;
    case 'circumferential':
      return `Asked for: ${asked} along the pitch circle.`;
    case 'normal':
      return `Asked for: ${asked} between the flanks.`;
    case 'centre-distance':
      return `Asked for: ${asked} that the axes may move ${mesh === 'internal' ? 'apart' : 'together'} before the teeth bind.`;
    default:
      return `For teeth that run as cast, so that the worst of them still turn freely: the least backlash of ISO/TR 10064-2 annex A, and what the casting tolerances may take away (ISO 8062-3, DCTG ${fields.toothGrade} for the teeth, ${fields.centreGrade === undefined ? `± ${mm(fields.centreTolerance)} on the bored centre distance` : `DCTG ${fields.centreGrade} for the centre distance`}).`;
  }
}

function shareRows(
  { backlash: { cast }, mesh }: AnyRankedPair,
  mm: (v: number) => string,
): readonly string[] {
  if (cast === null) return [];
  const [first, second] = memberNames[mesh];
  const { shares } = cast;
  return [
    oneRow('  the least', mm(shares.least)),
    oneRow(`  half the DCTG, teeth of ${first}`, mm(shares.gearTeeth)),
    oneRow(`  half the DCTG, teeth of ${second}`, mm(shares.mateTeeth)),
    oneRow('  centre distance', mm(shares.centreDistance)),
    ...(shares.runout > 0 ? [oneRow('  runout', mm(shares.runout))] : []),
  ];
}

function castRows(
  { backlash: { cast }, facts, gear }: AnyRankedPair,
  mm: (v: number) => string,
): readonly string[] {
  if (cast === null) return [];
  const pitch = (Math.PI * gear.normalModule) / Math.cos(gear.helixAngle);
  const share = Math.round((100 * facts.backlash.circumferential) / pitch);
  return [
    oneRow('circumferential, as castings come', `${mm(cast.range[0])} to ${mm(cast.range[1])}`),
    paragraph(
      `Deviations seldom all add up: ${mm(cast.likely)} (summed by squares) leaves nearly every pair free. The backlash is ${share} % of the pitch; wheels cast from wooden patterns were given 4 to 10 % (Unwin, Fairbairn; from memory).`,
    ),
  ];
}

function splitText({ backlash: plan, mesh }: AnyRankedPair, fields: PairFieldValues): string {
  if (fields.keepMate) return 'All of it on gear 1: its mate is there already.';
  const wheel = mesh === 'external' ? 'wheel' : memberNames[mesh][1];
  return plan.split === 'wheel'
    ? `All of it on the ${wheel}: the pinion keeps the strength of its teeth.`
    : `Shared equally; --thinning-split wheel puts all of it on the ${wheel}.`;
}
