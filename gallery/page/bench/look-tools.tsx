import type { RefObject } from 'preact';
import { useId } from 'preact/hooks';
import { saveFile } from '../take/save-file.js';
import type { Side } from '../view/frame.js';
import type { Stage } from '../view/stage.js';
import type { Bench } from './bench.js';
import { type BenchState, isCurrent, type Paint } from './state.js';

export interface LookToolsProps {
  readonly bench: Bench;
  readonly state: BenchState;
  readonly onLook: (side: Side | 'fit') => void;
  readonly stage: RefObject<Stage | null>;
}

const sides: readonly (readonly [Side, string])[] = [
  ['iso', 'the corner'],
  ['-y', 'the front'],
  ['+y', 'the back'],
  ['-x', 'the left'],
  ['+x', 'the right'],
  ['+z', 'above'],
  ['-z', 'below'],
];

/** Pixels of a picture that is saved. */
const pictureSize = [1600, 1200] as const;

/** From where, and with what, the piece is looked at. */
export function LookTools({ bench, state, onLook, stage }: LookToolsProps) {
  const id = useId();
  const plates = state.made?.reply.summary.plates ?? [];
  const save = async (): Promise<void> => {
    try {
      const blob = await stage.current?.picture(...pictureSize);
      if (blob)
        saveFile(
          `${state.casting}-${state.shown}.png`,
          new Uint8Array(await blob.arrayBuffer()),
          'image/png',
        );
    } catch {
      bench.tell('The browser gave no picture: try again, or make its window smaller.');
    }
  };
  return (
    <>
      <button type="button" class="quiet" onClick={() => onLook('fit')}>
        Fit
      </button>
      <span>
        <label for={`${id}-side`}>From </label>
        <select
          id={`${id}-side`}
          value=""
          onChange={(event) => {
            onLook(event.currentTarget.value as Side);
            event.currentTarget.value = '';
          }}
        >
          <option value="">here</option>
          {sides.map(([side, word]) => (
            <option key={side} value={side}>
              {word}
            </option>
          ))}
        </select>
      </span>
      {state.shown === 'part' && state.mate === null && (
        <label class="tick">
          <input
            type="checkbox"
            checked={state.dimensions}
            onChange={(event) => bench.look({ dimensions: event.currentTarget.checked })}
          />{' '}
          Sizes
        </label>
      )}
      {state.shown === 'gated' && <PaintChoice bench={bench} state={state} />}
      {state.shown === 'plate' && plates.length > 1 && (
        <span>
          <label for={`${id}-plate`}>Plate </label>
          <select
            id={`${id}-plate`}
            value={String(state.plate)}
            onChange={(event) => bench.look({ plate: Number(event.currentTarget.value) })}
          >
            {plates.map((plate, i) => (
              <option key={plate.name} value={String(i)}>
                {plate.name}
              </option>
            ))}
          </select>
        </span>
      )}
      <button type="button" class="quiet" onClick={save}>
        Save this picture
      </button>
      {state.shown === 'part' && state.mate === null && <span class="soft">Seen as it lies when poured</span>}
    </>
  );
}

const paintWords: Readonly<Record<Paint, string>> = {
  plain: 'plastic',
  solid: 'when the metal is solid',
  spent: 'how near the metal comes to stopping',
};

/** What the gated pattern is coloured by, where its filling and freezing are known. */
function PaintChoice({ bench, state }: Pick<LookToolsProps, 'bench' | 'state'>) {
  const id = useId();
  const isKnown = isCurrent(state) && state.made?.reply.frozen.some((f) => f.name === state.casting);
  return (
    <span>
      <label for={id}>Coloured by </label>
      <select
        id={id}
        value={isKnown ? state.paint : 'plain'}
        disabled={!isKnown}
        onChange={(event) => bench.look({ paint: event.currentTarget.value as Paint })}
      >
        {Object.entries(paintWords).map(([paint, word]) => (
          <option key={paint} value={paint}>
            {word}
          </option>
        ))}
      </select>
      {!isKnown && <span class="soft"> {state.progress ? 'being worked out' : 'not worked out'}</span>}
    </span>
  );
}
