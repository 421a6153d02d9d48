import { useEffect, useMemo, useState } from 'preact/hooks';
import { appraise } from '../../../core/gear/pair-appraisal.js';
import type { AnyRankedPair } from '../../../core/gear/pair-ranking.js';
import { mateEntry, type PartEntry } from '../../../core/pair/mate/mate-entry.js';
import { fieldsInUse, type MateFieldValues, mateFields } from '../../../core/pair/mate/mate-fields.js';
import { type MemberKind, meshOf, type ToothedMember } from '../../../core/pair/mate/member.js';
import { runningMate } from '../../../core/pair/mate/running-mate.js';
import { plain } from '../../../core/pair/rows.js';
import { told } from '../../../core/pair/told.js';
import { listSchemaFields } from '../../../core/part/field-list.js';
import type { Finding } from '../../../core/part/finding.js';
import { formatLength, type LengthUnit } from '../../../core/units/index.js';
import { FieldRow } from '../form/field-row.js';
import { FindingList } from '../form/finding-list.js';
import { Figures } from './figures.js';
import { chooseMates, firstTeeth, freeName, type RawWish } from './mate-choice.js';
import { RunningBench } from './running-bench.js';
import type { Couple, RunningScene } from './running-scene.js';
import { type ReadParameters, toothedMember } from './toothed-member.js';

/** A gear, ring or rack of the job, as the job's reader gives it. */
export interface ChosenPart {
  readonly name: string;
  readonly part: string;
  /** mm, radians, words; defaults filled in. */
  readonly parameters: ReadParameters;
  /** Where it is not the job's own. */
  readonly alloy?: string | undefined;
}

export interface PairBenchProps {
  readonly chosen: ChosenPart;
  readonly unit: LengthUnit;
  /** Names that are taken in the job. */
  readonly names: readonly string[];
  readonly onAddMate: (entry: PartEntry) => void;
  /** The mate to be built and shown beside the chosen part; null where there is none. */
  readonly onMate?: ((entry: PartEntry | null) => void) | undefined;
  readonly onScene?: ((scene: RunningScene) => void) | undefined;
}

/** The chosen part and a mate for it, turning in mesh. */
export function PairBench(props: PairBenchProps) {
  const { chosen } = props;
  const reading = useMemo(
    () => toothedMember(chosen.part, chosen.parameters),
    [chosen.part, chosen.parameters],
  );
  if (reading.ok) return <MemberBench key={chosen.name} {...props} member={reading.member} />;
  return (
    <section class="pair-bench">
      <FindingList findings={reading.findings} fields={[]} view={{ lengthUnit: props.unit, degrees: 'C' }} />
    </section>
  );
}

const allFields = listSchemaFields(mateFields);

function MemberBench(props: PairBenchProps & { readonly member: ToothedMember }) {
  const { chosen, member, unit, names, onMate } = props;
  const [raw, setRaw] = useState<RawWish>(() => firstTeeth(member, 'gear'));
  const [number, setNumber] = useState(0);
  const choice = useMemo(() => chooseMates(member, raw, unit), [member, raw, unit]);
  const pair = choice.candidates[Math.min(number, choice.candidates.length - 1)];
  const kind = choice.values?.mate ?? 'gear';
  const entry = useMemo(
    () => pair && mateEntry(member, kind, pair, { name: freeName(chosen.name, names), alloy: chosen.alloy }),
    [member, kind, pair, chosen.name, chosen.alloy, names],
  );
  useEffect(() => onMate?.(entry ?? null), [entry, onMate]);
  const change = (name: string, value: unknown): void => {
    setNumber(0);
    setRaw((before) => {
      const { [name]: _, ...others } = before;
      const kept = value === undefined ? others : { ...others, [name]: value };
      if (name !== 'mate') return kept;
      const { mateTeeth: __, ...free } = kept;
      return { ...free, ...firstTeeth(member, (value ?? 'gear') as MemberKind) };
    });
  };
  const mateName = kind === 'gear' ? 'its mate' : `its ${kind}`;
  const memberNames =
    member.kind === 'gear' ? ([chosen.name, mateName] as const) : (['its pinion', chosen.name] as const);
  return (
    <section class="pair-bench" aria-label={`A mate for ${chosen.name}`}>
      <div class="pair-places">
        <div class="pair-side">
          <p class="pair-lead">
            {chosen.name} stays as it is. Its mate gets the same module, basic rack and helix
            {member.gearType === 'spur'
              ? ''
              : meshOf(member.kind, kind) === 'internal'
                ? ', of the same hand'
                : ', of the other hand'}
            , and the shift and thinning that are wanting.
          </p>
          <WishForm
            member={member}
            raw={raw}
            values={choice.values}
            unit={unit}
            onChange={change}
            problems={choice.problems}
          />
          <FindingList
            findings={worded(choice.findings, unit, pair, memberNames)}
            fields={allFields}
            view={{ lengthUnit: 'mm', degrees: 'C' }}
          />
          <Candidates
            candidates={choice.candidates}
            kind={kind}
            chosen={Math.min(number, choice.candidates.length - 1)}
            unit={unit}
            onChoose={setNumber}
            member={member}
          />
          {entry && (
            <button type="button" class="pair-add" onClick={() => props.onAddMate(entry)}>
              Put the mate into the job
            </button>
          )}
        </div>
        {pair && (
          <>
            <Mesh {...props} pair={pair} names={memberNames} />
            <div class="pair-told">
              <FindingList
                findings={worded(pair.findings, unit, pair, memberNames)}
                fields={allFields}
                view={{ lengthUnit: 'mm', degrees: 'C' }}
              />
              <Figures pair={pair} names={memberNames} unit={unit} />
            </div>
          </>
        )}
      </div>
    </section>
  );
}

/** Findings that speak of the members by their names, in the reader's units. */
function worded(
  findings: readonly Finding[],
  unit: LengthUnit,
  pair: AnyRankedPair | undefined,
  names: readonly [string, string],
): readonly Finding[] {
  const mesh = pair?.mesh ?? 'external';
  return findings.map((f) => ({
    ...f,
    message: told(f.message, unit, mesh, names),
    remedy: told(f.remedy, unit, mesh, names),
  }));
}

function Mesh({
  member,
  pair,
  names,
  unit,
  onScene,
}: PairBenchProps & {
  readonly member: ToothedMember;
  readonly pair: AnyRankedPair;
  readonly names: readonly [string, string];
}) {
  const result = useMemo(() => runningMate(member, pair), [member, pair]);
  const couple = useMemo(
    (): Couple | null =>
      result.ok
        ? { pair: result.pair, chosenFirst: member.kind === 'gear', faceWidth: member.faceWidth }
        : null,
    [result, member],
  );
  if (couple) return <RunningBench couple={couple} names={names} unit={unit} onScene={onScene} />;
  return result.ok ? null : (
    <FindingList findings={result.findings} fields={allFields} view={{ lengthUnit: unit, degrees: 'C' }} />
  );
}

interface WishFormProps {
  readonly member: ToothedMember;
  readonly raw: RawWish;
  readonly values: MateFieldValues | null;
  readonly unit: LengthUnit;
  readonly problems: readonly {
    readonly path: readonly string[];
    readonly code: string;
    readonly message: string;
    readonly remedy: string;
  }[];
  readonly onChange: (name: string, value: unknown) => void;
}

function WishForm({ member, raw, unit, problems, onChange }: WishFormProps) {
  const mate = (raw.mate ?? 'gear') as MateFieldValues['mate'];
  const play = (raw.play ?? 'least') as MateFieldValues['play'];
  const used = fieldsInUse(mate, play, raw.mateTeeth !== undefined);
  // A ring or a rack takes nothing but a pinion.
  const fields = allFields.filter(
    (f) => used.includes(f.name) && (f.name !== 'mate' || member.kind === 'gear'),
  );
  return (
    <div class="pair-wish">
      {fields.map((field) => (
        <FieldRow
          key={field.name}
          field={field}
          raw={raw[field.name]}
          unit={unit}
          problem={problems.find((p) => p.path[0] === field.name)}
          idPrefix="mate"
          onDrag={(value) => onChange(field.name, value)}
          onChange={(value) => onChange(field.name, value)}
        />
      ))}
    </div>
  );
}

interface CandidatesProps {
  readonly candidates: readonly AnyRankedPair[];
  readonly kind: MateFieldValues['mate'];
  readonly chosen: number;
  readonly unit: LengthUnit;
  readonly member: ToothedMember;
  readonly onChoose: (number: number) => void;
}

/** Several mates that serve, where the tooth number was left free. */
function Candidates({ candidates, chosen, unit, member, onChoose }: CandidatesProps) {
  if (candidates.length < 2) return null;
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
              {mate.teeth} teeth, x {plain(mate.profileShift, 3)}, a {formatLength(distance, unit)}, ε{' '}
              {plain(totalContactRatio, 2)}
            </span>
          </label>
        );
      })}
    </fieldset>
  );
}
