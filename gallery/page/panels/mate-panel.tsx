import { useCallback, useEffect, useMemo } from 'preact/hooks';
import { jobDefaults } from '../../../core/job/job-schema.js';
import type { PartEntry } from '../../../core/pair/mate/mate-entry.js';
import type { LengthUnit } from '../../../core/units/index.js';
import type { Bench } from '../bench/bench.js';
import type { SceneSink } from '../bench/scene-sink.js';
import { type BenchState, requestOf } from '../bench/state.js';
import type { Plain } from '../job/document.js';
import { type ChosenPart, PairBench } from '../pair/pair-bench.js';
import { isToothed } from '../pair/toothed-member.js';
import '../style/pair.css';

export interface MatePanelProps {
  readonly bench: Bench;
  readonly state: BenchState;
  readonly unit: LengthUnit;
  readonly running: SceneSink;
}

/** A mate for the chosen gear; while this is open the two turn in the view. */
export function MatePanel({ bench, state, unit, running }: MatePanelProps) {
  const request = requestOf(state);
  const jobAlloy = String(state.draft.raw.alloy ?? jobDefaults.alloy);
  const parts = state.draft.job?.parts ?? [];
  const inJob = useMemo(
    () =>
      parts.map(
        ({ name, part, parameters, alloy }): ChosenPart => ({
          name,
          part,
          parameters,
          ...(alloy === jobAlloy ? {} : { alloy }),
        }),
      ),
    [JSON.stringify(parts), jobAlloy],
  );
  const chosen = inJob.find((p) => p.name === request?.name);
  const others = useMemo(() => inJob.filter((p) => p !== chosen && isToothed(p.part)), [inJob, chosen]);
  const names = useMemo(
    () => state.draft.entries.flatMap((e) => [e.name, ...e.castings]),
    [state.draft.entries],
  );
  const onMate = useCallback((entry: PartEntry | null) => bench.setMate(entry), [bench]);
  useEffect(
    () => () => {
      running.last = null;
      bench.setMate(null);
    },
    [bench, running],
  );
  if (!chosen) return <p>Mend the job first: see Findings.</p>;
  return (
    <PairBench
      chosen={chosen}
      unit={unit}
      names={names}
      others={others}
      onMate={onMate}
      onScene={running.take}
      onAddMate={(entry) => bench.addEntry(entry as unknown as { readonly [key: string]: Plain })}
    />
  );
}
