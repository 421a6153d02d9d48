import { useId } from 'preact/hooks';
import { formatLength, type LengthUnit } from '../../../core/units/index.js';
import type { Body, SectionPlane } from '../view/content.js';
import { sectionRange } from '../view/section-range.js';

export interface SectionToolsProps {
  readonly section: SectionPlane | null;
  readonly range: { readonly min: number; readonly max: number } | null;
  readonly bodies: readonly Body[];
  readonly unit: LengthUnit;
  readonly onSection: (section: SectionPlane | null) => void;
}

const planes: readonly (readonly [SectionPlane['axis'], string])[] = [
  ['x', 'left to right'],
  ['y', 'front to back'],
  ['z', 'upwards'],
];

const steps = 200;

/** A cut through the piece: none, or along one axis, with a slider for its place. */
export function SectionTools({ section, range, bodies, unit, onSection }: SectionToolsProps) {
  const id = useId();
  const choose = (axis: string): void => {
    const found = planes.find(([a]) => a === axis)?.[0];
    const span = found && sectionRange(bodies, found);
    // What is taken away is what stands before it for whoever looks from the front.
    const flipped = found === 'y' ? { flipped: true } : {};
    onSection(found && span ? { axis: found, at: (span.min + span.max) / 2, ...flipped } : null);
  };
  return (
    <>
      <span>
        <label for={`${id}-axis`}>Cut </label>
        <select
          id={`${id}-axis`}
          value={section?.axis ?? ''}
          onChange={(event) => choose(event.currentTarget.value)}
        >
          <option value="">nowhere</option>
          {planes.map(([axis, word]) => (
            <option key={axis} value={axis}>
              {word}
            </option>
          ))}
        </select>
      </span>
      {section && range && (
        <span class="cut-place">
          <label class="unseen" for={`${id}-at`}>
            Place of the cut
          </label>
          <input
            id={`${id}-at`}
            type="range"
            min={range.min}
            max={range.max}
            step={(range.max - range.min) / steps}
            value={section.at}
            aria-valuetext={formatLength(section.at, unit, { digits: unit === 'in' ? 2 : 1 })}
            onInput={(event) => onSection({ ...section, at: event.currentTarget.valueAsNumber })}
          />
        </span>
      )}
    </>
  );
}
