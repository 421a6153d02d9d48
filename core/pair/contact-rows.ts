import { gearGeometry } from '../gear/gear-geometry.js';
import { appraise } from '../gear/pair-appraisal.js';
import type { AnyRankedPair } from '../gear/pair-ranking.js';
import { formatAngle, type LengthUnit } from '../units/index.js';
import { lengthIn, oneRow, type PairRow, plain } from './rows.js';

/** Where a pair runs and how its teeth overlap. */
export function contactRows(p: AnyRankedPair, unit: LengthUnit): readonly PairRow[] {
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
