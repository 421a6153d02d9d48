import { useMemo, useState } from 'preact/hooks';
import type { PartEntry } from '../../../core/pair/mate/mate-entry.js';
import { meshOf, type ToothedMember } from '../../../core/pair/mate/member.js';
import type { LengthUnit } from '../../../core/units/index.js';
import { FindingList } from '../form/finding-list.js';
import type { ChosenPart } from './chosen-part.js';
import { GivenMate } from './given-mate.js';
import { NewMate } from './new-mate.js';
import type { RunningScene } from './running-scene.js';
import { isToothed, toothedMember } from './toothed-member.js';

export type { ChosenPart } from './chosen-part.js';

export interface PairBenchProps {
  readonly chosen: ChosenPart;
  readonly unit: LengthUnit;
  /** Names that are taken in the job. */
  readonly names: readonly string[];
  /** The job's other parts: those with teeth may be the mate. */
  readonly others?: readonly ChosenPart[] | undefined;
  readonly onAddMate: (entry: PartEntry) => void;
  /** The mate to be built and shown beside the chosen part; null where there is none. */
  readonly onMate?: ((entry: PartEntry | null) => void) | undefined;
  readonly onScene?: ((scene: RunningScene) => void) | undefined;
}

/** The chosen part and a mate for it, turning in mesh. */
export function PairBench(props: PairBenchProps) {
  const { chosen, unit } = props;
  const reading = useMemo(
    () => toothedMember(chosen.part, chosen.parameters),
    [chosen.part, chosen.parameters],
  );
  return (
    <section class="pair-bench" aria-label={`A mate for ${chosen.name}`}>
      {reading.ok ? (
        <div class="pair-places">
          <Partners key={chosen.name} {...props} member={reading.member} />
        </div>
      ) : (
        <FindingList findings={reading.findings} fields={[]} view={{ lengthUnit: unit, degrees: 'C' }} />
      )}
    </section>
  );
}

interface Partner {
  readonly part: ChosenPart;
  readonly member: ToothedMember;
}

/** A mate that is yet to be made, or one of the job's. */
function Partners(props: PairBenchProps & { readonly member: ToothedMember }) {
  const { member, chosen, others } = props;
  const partners = useMemo(
    () => partnersOf(member, chosen.name, others ?? []),
    [member, chosen.name, others],
  );
  const [wanted, setWanted] = useState('');
  const partner = partners.find(({ part }) => part.name === wanted);
  const choice = partners.length > 0 && (
    <label class="pair-partner">
      Runs with{' '}
      <select
        class="field-select"
        value={partner?.part.name ?? ''}
        onChange={(e) => setWanted(e.currentTarget.value)}
      >
        <option value="">a mate to be made</option>
        {partners.map(({ part }) => (
          <option key={part.name} value={part.name}>
            {part.name}
          </option>
        ))}
      </select>
    </label>
  );
  if (!partner) return <NewMate {...props} partners={choice} />;
  return (
    <GivenMate
      key={partner.part.name}
      {...props}
      partner={partner.part}
      other={partner.member}
      partners={choice}
    />
  );
}

const partnersOf = (member: ToothedMember, name: string, others: readonly ChosenPart[]): readonly Partner[] =>
  others.flatMap((part) => {
    if (part.name === name || !isToothed(part.part)) return [];
    const reading = toothedMember(part.part, part.parameters);
    return reading.ok && meshOf(member.kind, reading.member.kind) !== null
      ? [{ part, member: reading.member }]
      : [];
  });
