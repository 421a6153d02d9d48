import { partFields } from '../../../core/job/job-schema.js';
import type { Finding } from '../../../core/part/finding.js';
import type { View } from '../../../core/report/format.js';
import type { Bench } from '../bench/bench.js';
import type { Entry } from '../bench/state.js';
import { Presets } from '../form/presets.js';
import type { Problem } from '../job/problem.js';
import { NameRow } from './name-row.js';
import { SchemaForm } from './schema-form.js';

export interface SizesPanelProps {
  readonly bench: Bench;
  readonly entry: Entry;
  readonly view: View;
  readonly problems: readonly Problem[];
  /** Of the casting that is looked at. */
  readonly findings: readonly Finding[];
}

const quantityField = partFields.pick({ quantity: true });

/** The sizes of the chosen piece. */
export function SizesPanel({ bench, entry, view, problems, findings }: SizesPanelProps) {
  const { definition, raw, index } = entry;
  const at = ['parts', String(index)];
  const chosen = typeof raw.preset === 'string' ? raw.preset : undefined;
  if (!definition)
    return <p>There is no part called {entry.part || 'so'}. Choose one of the list over the picture.</p>;
  return (
    <>
      <h2>{definition.summary}</h2>
      <NameRow
        key={entry.name}
        label="Name in the job"
        name={entry.name}
        onChange={(name) => bench.rename(index, name)}
      />
      <SchemaForm bench={bench} schema={quantityField} path={at} raw={raw} view={view} problems={problems} />
      <Presets
        definition={definition}
        chosen={chosen}
        unit={view.lengthUnit}
        onChoose={(preset) => bench.edit([{ path: [...at, 'preset'], value: preset }])}
      />
      <SchemaForm
        key={entry.part}
        bench={bench}
        schema={definition.parameters}
        path={[...at, 'parameters']}
        raw={raw.parameters}
        preset={chosen === undefined ? undefined : definition.presets?.[chosen]}
        view={view}
        problems={problems}
        findings={findings}
      />
    </>
  );
}
