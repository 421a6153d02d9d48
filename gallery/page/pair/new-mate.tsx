import { useEffect, useMemo, useState } from 'preact/hooks';
import { mateEntry, type PartEntry } from '../../../core/pair/mate/mate-entry.js';
import { fieldsInUse, type MateFieldValues } from '../../../core/pair/mate/mate-fields.js';
import { type MemberKind, meshOf, type ToothedMember } from '../../../core/pair/mate/member.js';
import { FindingList } from '../form/finding-list.js';
import { freeName } from '../job/free-name.js';
import { Candidates } from './candidates.js';
import { chooseMates, firstTeeth, type RawWish } from './mate-choice.js';
import type { PairBenchProps } from './pair-bench.js';
import { PairShown } from './pair-shown.js';
import { WishForm, wishFields } from './wish-form.js';
import { worded } from './worded.js';

/** A mate that is yet to be made: asked for, found, shown, put into the job. */
export function NewMate(
  props: PairBenchProps & { readonly member: ToothedMember; readonly partners: preact.ComponentChildren },
) {
  const { chosen, member, unit, names, onMate } = props;
  const [raw, setRaw] = useState<RawWish>(() => firstTeeth(member, 'gear'));
  const [number, setNumber] = useState(0);
  const { candidates, values, problems, findings } = useMemo(
    () => chooseMates(member, raw, unit),
    [member, raw, unit],
  );
  const at = Math.min(number, candidates.length - 1);
  const pair = candidates[at];
  const kind = values?.mate ?? 'gear';
  const { name, alloy } = chosen;
  const entry = useMemo(
    (): PartEntry | null =>
      pair ? mateEntry(member, kind, pair, { name: freeName(`${name}-mate`, names), alloy }) : null,
    [member, kind, pair, name, alloy, names],
  );
  useEffect(() => onMate?.(entry), [entry, onMate]);
  const change = (field: string, value: unknown): void => {
    setNumber(0);
    setRaw((before) => changed(member, before, field, value));
  };
  const mateName = kind === 'gear' ? 'its mate' : `its ${kind}`;
  const memberNames = member.kind === 'gear' ? ([name, mateName] as const) : (['its pinion', name] as const);
  const hand =
    member.gearType === 'spur'
      ? ''
      : meshOf(member.kind, kind) === 'internal'
        ? ', of the same hand'
        : ', of the other hand';
  const mesh = pair?.mesh ?? meshOf(member.kind, kind) ?? 'external';
  return (
    <>
      <div class="pair-side">
        {props.partners}
        <p class="pair-lead">
          {name} stays as it is. Its mate gets the same module, basic rack and helix{hand}, and what profile
          shift and thinning are wanted.
        </p>
        <WishForm
          shown={shownFields(member, raw)}
          raw={raw}
          unit={unit}
          problems={problems}
          onChange={change}
        />
        <FindingList
          findings={worded(findings, unit, mesh, memberNames)}
          fields={wishFields}
          view={{ lengthUnit: 'mm', degrees: 'C' }}
        />
        <Candidates candidates={candidates} chosen={at} unit={unit} member={member} onChoose={setNumber} />
        {entry && (
          <button type="button" class="pair-add" onClick={() => props.onAddMate(entry)}>
            Put the mate into the job
          </button>
        )}
      </div>
      {pair && (
        <PairShown member={member} pair={pair} names={memberNames} unit={unit} onScene={props.onScene} />
      )}
    </>
  );
}

/** Another kind of mate begins with a tooth number of its own. */
function changed(member: ToothedMember, before: RawWish, field: string, value: unknown): RawWish {
  const { [field]: _, ...others } = before;
  const kept = value === undefined ? others : { ...others, [field]: value };
  if (field !== 'mate') return kept;
  const { mateTeeth: __, ...free } = kept;
  return { ...free, ...firstTeeth(member, (value ?? 'gear') as MemberKind) };
}

function shownFields(member: ToothedMember, raw: RawWish): readonly string[] {
  const mate = (raw.mate ?? 'gear') as MemberKind;
  const play = (raw.play ?? 'least') as MateFieldValues['play'];
  const used = fieldsInUse(mate, play, raw.mateTeeth !== undefined);
  // A ring or a rack takes nothing but a pinion.
  return member.kind === 'gear' ? used : used.filter((name) => name !== 'mate');
}
