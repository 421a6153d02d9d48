import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import type { View } from '../../../core/report/format.js';
import type { Theme } from '../theme.js';
import type { Side } from '../view/frame.js';
import { sectionRange } from '../view/section-range.js';
import type { Stage } from '../view/stage.js';
import { StageView } from '../view/stage-view.js';
import type { Bench } from './bench.js';
import { contentOf, pairContent } from './content.js';
import { FieldLegend } from './field-legend.js';
import { LookTools } from './look-tools.js';
import type { SceneSink } from './scene-sink.js';
import { SectionTools } from './section-tools.js';
import { type BenchState, entryOf } from './state.js';
import { Stations } from './stations.js';

export interface LookoutProps {
  readonly bench: Bench;
  readonly state: BenchState;
  readonly theme: Theme;
  readonly view: View;
  /** Where a running pair says how it stands. */
  readonly running: SceneSink;
}

const stateWords = {
  part: 'finished part',
  casting: 'casting with its stock',
  pattern: 'pattern',
  gated: 'gated pattern',
  plate: 'print plate',
} as const;

/** The piece as it is seen: its states, the view, and what helps to look. */
export function Lookout({ bench, state, theme, view, running }: LookoutProps) {
  const { shown, section, casting, made, sketched, draft, paint, plate, mate } = state;
  // The pair is of finished parts; other states are the chosen gear's own.
  const pairShown = mate !== null && shown === 'part';
  const content = useMemo(
    () => (pairShown ? pairContent(state, running.last) : contentOf(state)),
    [shown, casting, made, sketched, draft.version, paint, plate, mate],
  );
  const stage = useRef<Stage | null>(null);
  const [isFlat, setFlat] = useState(false);
  const range = useMemo(
    () => section && sectionRange(content.bodies, section.axis),
    [content, section?.axis],
  );
  // A mate takes more room than the gear had alone.
  useEffect(() => {
    if (pairShown && mate.mesh) stage.current?.fit();
  }, [pairShown, mate?.mesh]);
  const look = (side: Side | 'fit'): void => {
    if (side === 'fit') stage.current?.fit();
    else stage.current?.lookFrom(side);
  };
  return (
    <section class="lookout" aria-label="The piece">
      <Stations shown={shown} onShow={(next) => bench.show(next)} />
      <div class="picture">
        <StageView
          content={content}
          section={section}
          showDimensions={state.dimensions && shown === 'part' && !pairShown}
          theme={theme}
          label={`${entryOf(state)?.definition?.summary ?? 'Piece'}, ${pairShown ? 'turning with its mate' : stateWords[shown]}`}
          onSection={(next) => bench.cut(next)}
          onPainted={(now) => bench.painted(now)}
          onUnavailable={() => setFlat(true)}
          stageRef={(it) => {
            stage.current = it;
            running.stage = it;
          }}
        />
      </div>
      {content.field && <FieldLegend field={content.field} />}
      {!isFlat && (
        <div class="look-tools">
          <LookTools bench={bench} state={state} onLook={look} stage={stage} />
          <SectionTools
            section={section}
            range={range}
            bodies={content.bodies}
            unit={view.lengthUnit}
            onSection={(next) => bench.cut(next)}
          />
        </div>
      )}
    </section>
  );
}
