import { type Alloy, alloys } from '../../../core/foundry/alloys/index.js';
import { investments } from '../../../core/foundry/investment.js';
import { bedFields, nestingFields } from '../../../core/job/bed-schema.js';
import { gatingFields } from '../../../core/job/gating-schema.js';
import {
  correctionFields,
  growthFields,
  jobDefaults,
  partFields,
  settingsFields,
  stockFields,
} from '../../../core/job/job-schema.js';
import type { View } from '../../../core/report/format.js';
import type { Bench } from '../bench/bench.js';
import type { Entry } from '../bench/state.js';
import type { Problem } from '../job/problem.js';
import { ChoiceRow } from './choice-row.js';
import { SchemaForm } from './schema-form.js';

export interface MouldPanelProps {
  readonly bench: Bench;
  readonly raw: Readonly<Record<string, unknown>>;
  readonly entry: Entry;
  /** The shop's, beside those of the table. */
  readonly ownAlloys: readonly Alloy[];
  readonly view: View;
  readonly problems: readonly Problem[];
}

const investmentOptions = investments.map(({ name, title }) => ({ value: name, text: title }));
const textOf = (value: unknown): string | undefined => (typeof value === 'string' ? value : undefined);

const hasGates = (gating: unknown): boolean =>
  typeof gating === 'object' && gating !== null && Object.hasOwn(gating, 'gates');

/** Metal, quantity, stock and gating of the chosen piece, then what holds for the whole job. */
export function MouldPanel({ bench, raw, entry, ownAlloys, view, problems }: MouldPanelProps) {
  const at = ['parts', String(entry.index)];
  const common = { bench, view, problems };
  const jobFields = settingsFields.extend(growthFields.shape);
  const alloyOptions = [...alloys, ...ownAlloys].map(({ name, title }) => ({ value: name, text: title }));
  const jobAlloy = alloyOptions.find((o) => o.value === (raw.alloy ?? jobDefaults.alloy));
  return (
    <>
      <h2>This piece</h2>
      <ChoiceRow
        label="Metal"
        value={textOf(entry.raw.alloy)}
        options={alloyOptions}
        empty={`as the job: ${jobAlloy?.text ?? String(raw.alloy)}`}
        onChange={(value) => bench.edit([{ path: [...at, 'alloy'], value }])}
      />
      <SchemaForm {...common} schema={partFields} path={at} raw={entry.raw} without={['quantity']} />
      <SchemaForm {...common} schema={stockFields} path={[...at, 'stock']} raw={entry.raw.stock} />
      <SchemaForm
        {...common}
        schema={gatingFields}
        path={[...at, 'gating']}
        raw={entry.raw.gating}
        // A key of the piece's own, above; here only where the text has it here.
        without={hasGates(entry.raw.gating) ? [] : ['gates']}
      />
      <h2>The whole job</h2>
      <ChoiceRow
        label="Metal"
        value={textOf(raw.alloy)}
        options={alloyOptions}
        empty={alloyOptions.find((o) => o.value === jobDefaults.alloy)?.text ?? jobDefaults.alloy}
        onChange={(value) => bench.edit([{ path: ['alloy'], value }])}
      />
      <ChoiceRow
        label="Investment"
        value={textOf(raw.investment)}
        options={investmentOptions}
        empty={
          investmentOptions.find((o) => o.value === jobDefaults.investment)?.text ?? jobDefaults.investment
        }
        onChange={(value) => bench.edit([{ path: ['investment'], value }])}
      />
      <SchemaForm
        {...common}
        schema={jobFields}
        path={[]}
        raw={raw}
        without={['units', 'degrees', 'freezeFields', 'packFlasks']}
      />
      <SchemaForm {...common} schema={bedFields} path={['bed']} raw={raw.bed} />
      <SchemaForm
        {...common}
        schema={nestingFields}
        path={['nesting']}
        raw={raw.nesting}
        without={['seconds']}
      />
      <SchemaForm
        {...common}
        schema={correctionFields}
        path={['printerCorrection']}
        raw={raw.printerCorrection}
      />
    </>
  );
}
