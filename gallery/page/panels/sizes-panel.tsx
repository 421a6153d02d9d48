import { isPartFile } from '../../../core/job/job-context.js';
import { partFields } from '../../../core/job/job-schema.js';
import type { Finding } from '../../../core/part/finding.js';
import { showText } from '../../../core/part/input-problem.js';
import type { View } from '../../../core/report/format.js';
import type { Bench } from '../bench/bench.js';
import type { Entry } from '../bench/state.js';
import { type FileOpening, FileOpeningContext } from '../form/file-opening.js';
import { Presets } from '../form/presets.js';
import type { Problem } from '../job/problem.js';
import { meshEndings } from '../mesh/mesh-names.js';
import { NameRow } from './name-row.js';
import { SchemaForm } from './schema-form.js';

export interface SizesPanelProps {
  readonly bench: Bench;
  readonly entry: Entry;
  /** Names of the mesh files that are open. */
  readonly meshes: readonly string[];
  readonly view: View;
  readonly problems: readonly Problem[];
  /** Of the casting that is looked at. */
  readonly findings: readonly Finding[];
}

const quantityField = partFields.pick({ quantity: true });

/** The sizes of the chosen piece. */
export function SizesPanel({ bench, entry, meshes, view, problems, findings }: SizesPanelProps) {
  const { definition, raw, index } = entry;
  const at = ['parts', String(index)];
  const chosen = typeof raw.preset === 'string' ? raw.preset : undefined;
  if (!definition)
    return isPartFile(entry.part) ? (
      <p>
        {showText(entry.part)} is a part file. Part files are code, and this page runs none: make this job
        with the command line, <code>patternwright plate</code>.
      </p>
    ) : (
      <p>There is no part called {entry.part || 'so'}. Choose one of the list over the picture.</p>
    );
  const files: FileOpening = {
    open: meshes,
    accept: meshEndings,
    take: ({ name }, given, file) => void bench.openMeshFor(given, file, [...at, 'parameters', name]),
  };
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
      <FileOpeningContext.Provider value={files}>
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
      </FileOpeningContext.Provider>
    </>
  );
}
