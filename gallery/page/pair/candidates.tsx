import { appraise } from '../../../core/gear/pair-appraisal.js';
import type { AnyRankedPair } from '../../../core/gear/pair-ranking.js';
import type { ToothedMember } from '../../../core/pair/mate/member.js';
import { lengthIn, plain } from '../../../core/pair/rows.js';
import type { LengthUnit } from '../../../core/units/index.js';
import { SymbolText } from '../form/symbol.js';

interface CandidatesProps {
  readonly candidates: readonly AnyRankedPair[];
  readonly chosen: number;
  readonly unit: LengthUnit;
  readonly member: ToothedMember;
  readonly onChoose: (number: number) => void;
}

/** Several mates that serve, where the tooth number was left free. */
export function Candidates({ candidates, chosen, unit, member, onChoose }: CandidatesProps) {
  if (candidates.length < 2) return null;
  const length = lengthIn(unit);
  return (
    <fieldset class="pair-candidates">
      <legend>{candidates.length} that serve, the best first</legend>
      {candidates.map((p, i) => {
        const mate = member.kind === 'gear' ? p.mate : p.gear;
        const { distance, totalContactRatio } = appraise(p);
        return (
          <label key={mate.teeth}>
            <input type="radio" name="mate-candidate" checked={i === chosen} onChange={() => onChoose(i)} />
            <span>
              {mate.teeth} teeth, <SymbolText symbol="x" /> {plain(mate.profileShift, 3)},{' '}
              <SymbolText symbol="a" /> {length(distance)}, <SymbolText symbol="ε_γ" />{' '}
              {plain(totalContactRatio, 2)}
            </span>
          </label>
        );
      })}
    </fieldset>
  );
}
