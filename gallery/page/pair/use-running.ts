import { useEffect, useRef, useState } from 'preact/hooks';
import { type Turning, type TurnLimits, turnOn, withinLimits } from './turn-on.js';

export interface Running {
  /** Turn of the pair's first member, rad. */
  readonly angle: number;
  /** 1 counter-clockwise; the flanks that lead that way are the ones that drive. */
  readonly way: 1 | -1;
  readonly playing: boolean;
  /** Seconds that a tooth takes to pass. */
  readonly pace: number;
  readonly setAngle: (angle: number) => void;
  readonly turnBack: () => void;
  readonly setPlaying: (playing: boolean) => void;
  readonly setPace: (pace: number) => void;
  /** On or back by so many teeth, standing still. */
  readonly step: (teeth: number) => void;
}

/** Slow enough to follow a contact from A to E. */
const usualPace = 4;
/** A frame that comes later than this, s, goes on as if it had come in time: the tab was hidden. */
const longestFrame = 0.1;

const wantsStill = (): boolean =>
  typeof matchMedia === 'function' && matchMedia('(prefers-reduced-motion: reduce)').matches;

/** A pair's clock: where it stands, running or not. It stands still at first where the reader wants little motion. */
export function useRunning(pitch: number, limits: TurnLimits): Running {
  const [turning, setTurning] = useState<Turning>({ angle: 0, way: 1 });
  const [playing, setPlaying] = useState(() => !wantsStill());
  const [pace, setPace] = useState(usualPace);
  const [least, most] = limits;
  const speed = useRef(0);
  speed.current = pitch / pace;
  useEffect(() => {
    if (!playing) return;
    let frame = 0;
    let before: number | undefined;
    const tick = (now: number): void => {
      const elapsed = Math.min(longestFrame, (now - (before ?? now)) / 1000);
      before = now;
      setTurning((at) => turnOn(at, elapsed * speed.current, [least, most]));
      frame = requestAnimationFrame(tick);
    };
    frame = requestAnimationFrame(tick);
    return () => cancelAnimationFrame(frame);
  }, [playing, least, most]);
  const setAngle = (angle: number): void =>
    setTurning(({ way }) => ({ angle: withinLimits(angle, limits), way }));
  return {
    angle: withinLimits(turning.angle, limits),
    way: turning.way,
    playing,
    pace,
    setAngle,
    turnBack: () => setTurning(({ angle, way }) => ({ angle, way: way > 0 ? -1 : 1 })),
    setPlaying,
    setPace,
    step: (teeth) => {
      setPlaying(false);
      setAngle(turning.angle + teeth * pitch);
    },
  };
}
