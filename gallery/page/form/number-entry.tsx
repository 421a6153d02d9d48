import { useState } from 'preact/hooks';
import type { EntryProps } from './entry-props.js';
import { NumberBox } from './number-box.js';
import { ValueSlider } from './value-slider.js';
import type { RawValue } from './written-value.js';

/** A box for any form of the number, and a slider under it. */
export function NumberEntry(props: EntryProps) {
  const [moving, setMoving] = useState<RawValue | undefined>(undefined);
  const { min = 0, max = 1 } = props.field.info;
  const middle = min > 0 ? Math.sqrt(min * max) : (min + max) / 2;
  return (
    <>
      <NumberBox
        {...props}
        moving={moving === undefined ? undefined : String(moving)}
        startFrom={props.field.info.kind === 'count' ? Math.round(middle) : middle}
      />
      <ValueSlider {...props} onMoving={setMoving} />
    </>
  );
}
