/** What a log teaches, as plain data: what `log show --json` prints. */
import { type FaultReport, relateFaults } from './faults.js';
import { type Axis, growthFromLog, printerErrorFromLog } from './growth.js';
import type { RatioEstimate } from './ratio-estimate.js';
import type { PourRecord } from './record.js';

export interface GrowthRow {
  readonly alloy: string;
  readonly investment: string;
  /** Both axes together. */
  readonly all: RatioEstimate;
  /** Each alone, where both were measured. */
  readonly axes: Readonly<Partial<Record<Axis, RatioEstimate>>>;
}

export interface PrinterRow {
  /** Null: not written down. */
  readonly plastic: string | null;
  readonly axis: Axis;
  /** Measured pattern / size in the model. */
  readonly error: RatioEstimate;
  /** For the next print: 1 / error. */
  readonly correction: number;
}

export interface LogReport {
  readonly pours: number;
  /** Days of the first and last; null for an empty log. */
  readonly first: string | null;
  readonly last: string | null;
  readonly growth: readonly GrowthRow[];
  readonly printer: readonly PrinterRow[];
  readonly faults: readonly FaultReport[];
  /** Castings whose pattern was not measured: they teach no growth, since the printer's error is in them. */
  readonly withoutPattern: number;
}

const distinct = <T>(values: readonly T[]): readonly T[] => [...new Set(values)];

/** Works out everything there is to say of some records. */
export function reportLog(records: readonly PourRecord[]): LogReport {
  const days = records.map((r) => r.date).sort();
  const moulds = new Map(records.map((r) => [JSON.stringify([r.alloy, r.investment]), r]));
  return {
    pours: records.length,
    first: days[0] ?? null,
    last: days.at(-1) ?? null,
    growth: [...moulds.values()].flatMap((r) => growthRow(records, r.alloy, r.investment)),
    printer: distinct(records.map((r) => r.settings.plastic ?? null)).flatMap((plastic) =>
      (['xy', 'z'] as const).flatMap((axis) => {
        const error = printerErrorFromLog(records, plastic, axis);
        return error === undefined ? [] : [{ plastic, axis, error, correction: 1 / error.value }];
      }),
    ),
    faults: distinct(records.map((r) => r.alloy)).map((alloy) => relateFaults(records, alloy)),
    withoutPattern: records
      .flatMap((r) => r.sizes)
      .filter((s) => s.casting !== undefined && s.pattern === undefined).length,
  };
}

function growthRow(records: readonly PourRecord[], alloy: string, investment: string): readonly GrowthRow[] {
  const all = growthFromLog(records, alloy, investment);
  if (all === undefined) return [];
  const xy = growthFromLog(records, alloy, investment, 'xy');
  const z = growthFromLog(records, alloy, investment, 'z');
  return [{ alloy, investment, all, axes: xy && z ? { xy, z } : {} }];
}
