import type { TargetedEvent } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import { formatFieldValue } from '../../../core/part/field-text.js';
import { fieldWords, plainWords } from '../../../core/part/field-words.js';
import { nearestStop, outgrown, type SliderScale, sliderScale } from '../../../core/part/slider-scale.js';
import type { EntryProps } from './entry-props.js';
import { type RawValue, rawOfMoved, readGiven, shownNumber, writtenUnit } from './written-value.js';

interface ValueSliderProps extends EntryProps {
  readonly onMoving: (raw: RawValue | undefined) => void;
}

/**
 * Moves a number over its range, or over a window of it about the value. The window stays where it is while the
 * slider is held, and moves on when the value comes to rest at one of its ends.
 */
export function ValueSlider(props: ValueSliderProps) {
  const { field, raw, inherited, unit, onDrag, onChange, onMoving } = props;
  const [held, setHeld] = useState<number | null>(null);
  /** Between the first move and letting go; the value given may follow meanwhile. */
  const holding = useRef(false);
  const kept = useRef<{
    readonly key: string;
    readonly known: boolean;
    readonly scale: SliderScale | undefined;
  }>(undefined);

  const moved = writtenUnit(field, raw, unit);
  const reading = readGiven(field, raw, unit);
  const value = reading?.ok ? reading.value : inherited;
  const number = typeof value === 'number' ? value : undefined;
  const shown = shownNumber(field, number, moved);

  // A value that has arrived takes the place of what was moved to.
  useEffect(() => {
    if (!holding.current) setHeld(null);
  }, [raw]);

  const key = `${field.name} ${moved}`;
  const known = shown !== undefined;
  const last = kept.current;
  const fits = last?.known === known && !(known && last.scale && outgrown(last.scale, shown));
  if (last?.key !== key || !(holding.current || fits)) {
    kept.current = { key, known, scale: sliderScale(field.info, moved, number) };
  }
  const scale = kept.current?.scale;
  if (scale === undefined) return null;

  const middle = Math.floor(scale.stops.length / 2);
  const at = held ?? (shown === undefined ? middle : nearestStop(scale, shown));
  const rawAt = (index: number): RawValue => rawOfMoved(field, scale.stops[index]!, moved, unit);
  const told = (): string => {
    if (held === null) {
      return number === undefined
        ? `not set; ${plainWords(field.info.derived ?? 'no value')}`
        : formatFieldValue(field.info, number, unit);
    }
    const there = readGiven(field, rawAt(held), unit);
    return there?.ok ? formatFieldValue(field.info, there.value, unit) : '';
  };
  const letGo = (event: TargetedEvent<HTMLInputElement>): void => {
    if (!holding.current) return;
    const next = rawAt(Number(event.currentTarget.value));
    holding.current = false;
    onMoving(undefined);
    if (next === raw) setHeld(null);
    onChange(next);
  };
  return (
    <input
      type="range"
      class={`field-slider${number === undefined && held === null ? ' is-unset' : ''}`}
      min={0}
      max={scale.stops.length - 1}
      step={1}
      value={at}
      aria-label={`${fieldWords(field.name)}, slider`}
      aria-valuetext={told()}
      style={{ '--at': `${(100 * at) / (scale.stops.length - 1)}%` }}
      onInput={(event) => {
        const index = Number(event.currentTarget.value);
        holding.current = true;
        setHeld(index);
        onMoving(rawAt(index));
        onDrag(rawAt(index));
      }}
      onChange={letGo}
      // Where it is let go at the value it was taken up at, there is no change event.
      onPointerUp={letGo}
      onBlur={letGo}
    />
  );
}
