import { useEffect, useId, useState } from 'preact/hooks';
import { gearGeometry } from '../../../core/gear/gear-geometry.js';
import { type FlankSide, turnLimits } from '../../../core/gear/running/stand.js';
import { formatLength, type LengthUnit } from '../../../core/units/index.js';
import { CloseUp } from './close-up.js';
import { ContactTable } from './contact-table.js';
import { type Couple, type RunningScene, runningScene } from './running-scene.js';
import { TurnControls } from './turn-controls.js';
import { useRunning } from './use-running.js';

interface RunningBenchProps {
  readonly couple: Couple;
  /** Of the pair's first and second member. */
  readonly names: readonly [string, string];
  readonly unit: LengthUnit;
  /** Called for every moment that is to be shown. */
  readonly onScene?: ((scene: RunningScene) => void) | undefined;
}

const reaches = [
  ['teeth', 'a few teeth', 1.7],
  ['tooth', 'one tooth', 0.75],
  ['gap', 'the gap', 0.3],
] as const;

/** The pair in mesh: turned by hand or by itself, seen close up. */
export function RunningBench({ couple, names, unit, onScene }: RunningBenchProps) {
  const { pair, chosenFirst, faceWidth } = couple;
  const id = useId();
  const pitch = (2 * Math.PI) / pair.mesh.gear.teeth;
  const limits = turnLimits(pair);
  const running = useRunning(pitch, limits);
  const [midway, setMidway] = useState(false);
  const [share, setShare] = useState(0.5);
  const [shown, setShown] = useState<(typeof reaches)[number][0]>('teeth');
  const z = share * faceWidth;
  const side: FlankSide = midway ? 'midway' : running.way > 0 ? 'leading' : 'trailing';
  const { angle } = running;
  useEffect(() => onScene?.(runningScene(couple, angle, side)), [couple, angle, side, onScene]);
  const length = (mm: number): string =>
    formatLength(mm, unit, { digits: unit === 'in' ? 4 : 3, keepZeros: true }).replace('-', '−');
  const straight = pair.mesh.gear.helixAngle === 0;
  const reach =
    (reaches.find(([key]) => key === shown)?.[2] ?? 1) * gearGeometry(pair.mesh.gear).transversePitch;
  return (
    <section class="running-bench" aria-label="The pair in mesh">
      <CloseUp
        pair={pair}
        chosenFirst={chosenFirst}
        angle={angle}
        z={z}
        side={side}
        reach={reach}
        length={length}
        title={`Section where the teeth of ${names[0]} and ${names[1]} meet, with base and pitch circles, line of action, contact points, backlash and tip clearances`}
      />
      <ul class="close-up-key" aria-hidden="true">
        <li class={chosenFirst ? 'is-chosen' : 'is-mate'}>{names[0]}</li>
        <li class={chosenFirst ? 'is-mate' : 'is-chosen'}>{names[1]}</li>
        <li class="is-contact">contact</li>
        <li class="is-path">line of action, A to E</li>
        <li class="is-pitch">pitch circles</li>
        <li class="is-base">base circles</li>
      </ul>
      <TurnControls running={running} limits={limits} pitch={pitch} name={names[0]} />
      <div class="look-controls">
        <label>
          Show{' '}
          <select
            class="field-select"
            value={shown}
            onChange={(e) => setShown(e.currentTarget.value as typeof shown)}
          >
            {reaches.map(([key, word]) => (
              <option key={key} value={key}>
                {word}
              </option>
            ))}
          </select>
        </label>
        <label class="look-check">
          <input type="checkbox" checked={midway} onChange={(e) => setMidway(e.currentTarget.checked)} />
          Teeth midway, half the backlash either side
        </label>
        {!straight && (
          <>
            <label for={id}>
              Section at <output for={id}>{length(z)}</output> above the lower face
            </label>
            <input
              id={id}
              class="field-slider"
              type="range"
              min={0}
              max={1}
              step={0.005}
              value={share}
              style={{ '--at': `${100 * share}%` }}
              onInput={(e) => setShare(Number(e.currentTarget.value))}
            />
          </>
        )}
      </div>
      <ContactTable pair={pair} angle={angle} z={z} side={side} names={names} length={length} />
    </section>
  );
}
