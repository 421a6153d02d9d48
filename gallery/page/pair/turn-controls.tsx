import { useId } from 'preact/hooks';
import { shownDegrees, type TurnLimits } from './turn-on.js';
import type { Running } from './use-running.js';

interface TurnControlsProps {
  readonly running: Running;
  readonly limits: TurnLimits;
  /** rad from one tooth to the next. */
  readonly pitch: number;
  /** What turns: `crank-wheel`. */
  readonly name: string;
}

/** Seconds a tooth takes, from fast to slow. */
const paces = [
  [0.25, 'fast'],
  [1, 'brisk'],
  [4, 'slow'],
  [16, 'very slow'],
] as const;

const full = 2 * Math.PI;

/** Running and standing, to and fro, tooth by tooth, and by hand. */
export function TurnControls({ running, limits, pitch, name }: TurnControlsProps) {
  const id = useId();
  const { angle, way, playing, pace } = running;
  const [least, most] = limits;
  const bound = Number.isFinite(most - least);
  const shown = shownDegrees(angle, limits);
  const degrees = 360 / full;
  return (
    <fieldset class="turn-controls">
      <legend class="unseen">Turning {name}</legend>
      <button type="button" class="turn-play" onClick={() => running.setPlaying(!playing)}>
        {playing ? 'Stop' : 'Run'}
      </button>
      <button type="button" onClick={() => running.step(-1)}>
        Tooth back
      </button>
      <button type="button" onClick={() => running.step(1)}>
        Tooth on
      </button>
      <button type="button" onClick={running.turnBack}>
        Drive {way > 0 ? 'clockwise' : 'anticlockwise'}
      </button>
      <label class="turn-pace">
        Pace{' '}
        <select
          class="field-select"
          value={String(pace)}
          onChange={(e) => running.setPace(Number(e.currentTarget.value))}
        >
          {paces.map(([seconds, word]) => (
            <option key={word} value={String(seconds)}>
              {word}
            </option>
          ))}
        </select>
      </label>
      <label class="turn-angle" for={id}>
        <span>Turned by</span> <output for={id}>{shown.toFixed(1).replace('-', '−')}°</output>
      </label>
      <input
        id={id}
        class="field-slider"
        type="range"
        min={bound ? least * degrees : 0}
        max={bound ? most * degrees : 360}
        step={(pitch * degrees) / 200}
        value={shown}
        style={{
          '--at': `${(100 * (shown - (bound ? least * degrees : 0))) / (bound ? (most - least) * degrees : 360)}%`,
        }}
        onInput={(e) => {
          running.setPlaying(false);
          running.setAngle(Number(e.currentTarget.value) / degrees);
        }}
      />
    </fieldset>
  );
}
