import { useId } from 'preact/hooks';
import type { PartDefinition } from '../../../core/part/contract.js';
import { listSchemaFields } from '../../../core/part/field-list.js';
import type { LengthUnit } from '../../../core/units/index.js';
import { presetSummary } from './preset-summary.js';

export interface PresetsProps {
  readonly definition: PartDefinition;
  /** The job's; a name that the part does not know is shown as none. */
  readonly chosen: string | undefined;
  readonly unit: LengthUnit;
  readonly onChoose: (name: string | undefined) => void;
}

/** The part's named sets of sizes: one, or none. Nothing is drawn where it has none. */
export function Presets({ definition, chosen, unit, onChoose }: PresetsProps) {
  const name = useId();
  const presets = Object.entries(definition.presets ?? {});
  if (presets.length === 0) return null;
  const fields = listSchemaFields(definition.parameters);
  const known = presets.some(([preset]) => preset === chosen) ? chosen : undefined;
  const choice = (value: string | undefined, title: string, summary: string) => (
    <label key={title} class="preset">
      <input
        type="radio"
        name={name}
        checked={known === value}
        onChange={() => onChoose(value)}
        aria-describedby={`${name}-${value ?? ''}`}
      />
      <span class="preset-name">{title}</span>
      <span class="preset-summary" id={`${name}-${value ?? ''}`}>
        {summary}
      </span>
    </label>
  );
  return (
    <fieldset class="presets">
      <legend>Preset</legend>
      {choice(undefined, 'none', 'Every size by itself')}
      {presets.map(([preset, sets]) =>
        choice(
          preset,
          preset.replaceAll('-', ' '),
          presetSummary(sets as Readonly<Record<string, unknown>>, fields, unit),
        ),
      )}
    </fieldset>
  );
}
