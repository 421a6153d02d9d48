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
  const kept = useRef<{ readonly key: string; readonly scale: SliderScale | undefined }>(undefined);

  const moved = writtenUnit(field, raw, unit);
  const reading = readGiven(field, raw, unit);
  const value = reading?.ok ? reading.value : inherited;
  const number = typeof value === 'number' ? value : undefined;
  const shown = shownNumber(field, number, moved);

  // A value that has arrived ends the holding.
  useEffect(() => setHeld(null), [raw]);

  const key = `${field.name} ${moved} ${number === undefined}`;
  const last = kept.current;
  const stays =
    last?.key === key &&
    (held !== null || shown === undefined || !last.scale || !outgrown(last.scale, shown));
  if (!stays) kept.current = { key, scale: sliderScale(field.info, moved, number) };
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
        setHeld(index);
        onMoving(rawAt(index));
        onDrag(rawAt(index));
      }}
      onChange={(event) => {
        const next = rawAt(Number(event.currentTarget.value));
        onMoving(undefined);
        if (next === raw) setHeld(null);
        else onChange(next);
      }}
      onBlur={() => {
        setHeld(null);
        onMoving(undefined);
      }}
    />
  );
}
