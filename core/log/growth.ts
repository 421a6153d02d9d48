/** What the measured sizes teach: growth by alloy and mould, and the printer's error apart from it. */
import { estimateRatio, type MeasuredPour, type RatioEstimate, type Reading } from './ratio-estimate.js';
import type { MeasuredSize, PourRecord } from './record.js';

export type Axis = MeasuredSize['axis'];

const readings = (
  record: PourRecord,
  axis: Axis | undefined,
  read: (size: MeasuredSize) => Reading | undefined,
): MeasuredPour => ({
  record,
  readings: record.sizes.filter((s) => axis === undefined || s.axis === axis).flatMap((s) => read(s) ?? []),
});

/** Pattern and rough casting: what was filed off is put back. */
function contraction({ name, pattern, casting, removed = 0 }: MeasuredSize): Reading | undefined {
  if (pattern === undefined || casting === undefined || casting + removed <= 0) return undefined;
  return { size: name, upper: pattern, lower: casting + removed };
}

function printing({ name, nominal, pattern }: MeasuredSize): Reading | undefined {
  return nominal === undefined || pattern === undefined
    ? undefined
    : { size: name, upper: pattern, lower: nominal };
}

/**
 * Growth, pattern size / rough casting size, from the records of one alloy in one investment; undefined where no
 * pattern and casting were measured at the same place. The printer's error is not in it: both sizes are measured.
 * @param axis sizes that lay this way in the print alone
 */
export function growthFromLog(
  records: readonly PourRecord[],
  alloy: string,
  investment: string,
  axis?: Axis,
): RatioEstimate | undefined {
  const own = records.filter((r) => r.alloy === alloy && r.investment === investment);
  return estimateRatio(
    own.map((record) => readings(record, axis, contraction)),
    { name: 'g', upper: 'pattern', lower: 'casting' },
  );
}

/**
 * The printer's error, measured pattern / size in the model, from the records of one plastic (null: none named)
 * along one axis; undefined where no pattern was measured beside its nominal size. The model has the printer
 * correction in it, so the correction for the next print is 1 / e, whichever was used.
 */
export function printerErrorFromLog(
  records: readonly PourRecord[],
  plastic: string | null,
  axis: Axis,
): RatioEstimate | undefined {
  const own = records.filter((r) => (r.settings.plastic ?? null) === plastic);
  return estimateRatio(
    own.map((record) => readings(record, axis, printing)),
    { name: 'e', upper: 'pattern', lower: 'nominal' },
  );
}
