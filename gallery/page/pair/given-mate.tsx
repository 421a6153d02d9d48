import { useEffect, useMemo, useState } from 'preact/hooks';
import { meetMate } from '../../../core/pair/mate/given-mate.js';
import { mateFields } from '../../../core/pair/mate/mate-fields.js';
import type { ToothedMember } from '../../../core/pair/mate/member.js';
import { readFields } from '../../../core/part/parameters.js';
import { FindingList } from '../form/finding-list.js';
import type { ChosenPart } from './chosen-part.js';
import type { RawWish } from './mate-choice.js';
import type { PairBenchProps } from './pair-bench.js';
import { PairShown } from './pair-shown.js';
import { readEntry } from './read-entry.js';
import { WishForm, wishFields } from './wish-form.js';
import { worded } from './worded.js';

/** A mate that the job has already: both parts as they are. */
export function GivenMate(
  props: PairBenchProps & {
    readonly member: ToothedMember;
    readonly partner: ChosenPart;
    readonly other: ToothedMember;
    readonly partners: preact.ComponentChildren;
  },
) {
  const { chosen, member, partner, other, unit, onMate } = props;
  const [raw, setRaw] = useState<RawWish>({});
  const reading = useMemo(() => readFields(mateFields, raw, { lengthUnit: unit }), [raw, unit]);
  const distance = reading.ok ? reading.values.centreDistance : undefined;
  const { pair, findings } = useMemo(() => meetMate(member, other, distance), [member, other, distance]);
  const entry = useMemo(() => (pair ? readEntry(partner) : null), [pair === null, partner]);
  useEffect(() => onMate?.(entry), [entry, onMate]);
  const names =
    member.kind === 'gear' ? ([chosen.name, partner.name] as const) : ([partner.name, chosen.name] as const);
  return (
    <>
      <div class="pair-side">
        {props.partners}
        <p class="pair-lead">Both stay as they are in the job.</p>
        <WishForm
          shown={['centreDistance']}
          raw={raw}
          unit={unit}
          problems={reading.ok ? [] : reading.problems}
          onChange={(name, value) => setRaw(value === undefined ? {} : { [name]: value })}
        />
        {pair === null && (
          <FindingList
            findings={worded(findings, unit, 'external', names)}
            fields={wishFields}
            view={{ lengthUnit: 'mm', degrees: 'C' }}
          />
        )}
      </div>
      {pair && (
        <PairShown
          member={member}
          other={other}
          pair={pair}
          names={names}
          unit={unit}
          onScene={props.onScene}
        />
      )}
    </>
  );
}
