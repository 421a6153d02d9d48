import { useMemo } from 'preact/hooks';
import type { AnyRankedPair } from '../../../core/gear/pair-ranking.js';
import type { ToothedMember } from '../../../core/pair/mate/member.js';
import { runningMate } from '../../../core/pair/mate/running-mate.js';
import type { LengthUnit } from '../../../core/units/index.js';
import { FindingList } from '../form/finding-list.js';
import { Figures } from './figures.js';
import { RunningBench } from './running-bench.js';
import type { Couple, RunningScene } from './running-scene.js';
import { worded } from './worded.js';

export interface PairShownProps {
  readonly member: ToothedMember;
  /** The other member where it is a part of the job. */
  readonly other?: ToothedMember | undefined;
  readonly pair: AnyRankedPair;
  /** Of the pair's first and second member. */
  readonly names: readonly [string, string];
  readonly unit: LengthUnit;
  readonly onScene?: ((scene: RunningScene) => void) | undefined;
}

/** A pair turning in mesh, what is to be said of it, and its figures. */
export function PairShown({ member, other, pair, names, unit, onScene }: PairShownProps) {
  const result = useMemo(() => runningMate(member, pair, other), [member, pair, other]);
  const couple = useMemo(
    (): Couple | null =>
      result.ok
        ? { pair: result.pair, chosenFirst: member.kind === 'gear', faceWidth: member.faceWidth }
        : null,
    [result, member],
  );
  const findings = result.ok ? pair.findings : result.findings;
  return (
    <>
      {couple && <RunningBench couple={couple} names={names} unit={unit} onScene={onScene} />}
      <div class="pair-told">
        <FindingList
          findings={worded(findings, unit, pair.mesh, names)}
          fields={[]}
          view={{ lengthUnit: 'mm', degrees: 'C' }}
        />
        <Figures pair={pair} names={names} unit={unit} />
      </div>
    </>
  );
}
