import type { View } from '../../../core/report/format.js';
import type { Bench } from './bench.js';
import type { BenchState } from './state.js';

/** Name of the job, back and forward, units. */
export function Toolbar({
  bench,
  state,
  view,
}: {
  readonly bench: Bench;
  readonly state: BenchState;
  readonly view: View;
}) {
  const switchUnits = (): void => {
    if (!bench.switchUnits(view.lengthUnit === 'mm' ? 'in' : 'mm'))
      bench.tell(
        'The units cannot be switched while the job has problems, or lengths without a unit under shop or in the text of a size: mend these first.',
      );
  };
  return (
    <section class="toolbar" aria-label="Job">
      <p class="job-title">{String(state.draft.raw.title ?? state.draft.raw.job ?? '')}</p>
      <button type="button" class="quiet" disabled={!state.canUndo} onClick={() => bench.undo()}>
        Undo
      </button>
      <button type="button" class="quiet" disabled={!state.canRedo} onClick={() => bench.redo()}>
        Redo
      </button>
      <button type="button" class="quiet" onClick={switchUnits}>
        <span class="unseen">Units: </span>
        {view.lengthUnit === 'mm' ? 'mm' : 'inches'}
        <span class="unseen">, switch to {view.lengthUnit === 'mm' ? 'inches' : 'mm'}</span>
      </button>
      <button
        type="button"
        class="quiet"
        onClick={() => bench.edit([{ path: ['degrees'], value: view.degrees === 'C' ? 'F' : 'C' }])}
      >
        <span class="unseen">Temperatures: </span>°{view.degrees}
        <span class="unseen">, switch to °{view.degrees === 'C' ? 'F' : 'C'}</span>
      </button>
    </section>
  );
}
