/** The ratio of two sizes, measured on several pours, with its uncertainty and what stands apart. */
import type { PourRecord } from './record.js';
import {
  confidence,
  findOutliers,
  type Interval,
  mean,
  meanInterval,
  medianDeviation,
  weightedMedian,
} from './statistics.js';

/** A reading or a pour that was left out because it stands apart. */
export interface Outlier {
  readonly date: string;
  readonly flask: string | null;
  /** The dimension; null for a whole pour. */
  readonly size: string | null;
  readonly ratio: number;
}

export interface RatioEstimate {
  readonly value: number;
  /** 95 %; null where one reading alone gives no scatter. */
  readonly interval: Interval | null;
  /** What was counted: pours, or the readings of the one pour there is. */
  readonly n: number;
  readonly unit: 'pours' | 'readings';
  /** Used, outliers not among them. */
  readonly pours: number;
  readonly readings: number;
  readonly outliers: readonly Outlier[];
  readonly basis: { readonly rule: string; readonly source: string };
}

/** One size of one pour: `upper / lower` is the ratio; both mm. */
export interface Reading {
  readonly size: string;
  readonly upper: number;
  readonly lower: number;
}

export interface MeasuredPour {
  readonly record: PourRecord;
  readonly readings: readonly Reading[];
}

/** A departure this small is a calliper's; common practice, no source. mm */
const measuringError = 0.05;
/** Iglewicz and Hoaglin, How to Detect and Handle Outliers, 1993: |0.6745 (x − median)| / MAD over 3.5. */
const farFromMedian = 3.5;
/** A larger chance of naming an outlier where there is none would make the interval too narrow. */
const outlierSignificance = 0.01;
/** More pours that stand apart are no outliers, but another trade. */
const mostOutliers = 50;

const source =
  'the pour log; outliers by the generalised ESD test (Rosner 1983) at 1 %, 95 % interval by Student’s t (NIST/SEMATECH e-Handbook 1.3.5.17.3 and 1.3.5.2)';

const sum = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0);
const ratioOf = (r: Reading): number => r.upper / r.lower;

/** Large sizes count for more: a calliper errs by as much on a small one. */
const pourRatio = (readings: readonly Reading[]): number =>
  sum(readings.map((r) => r.upper)) / sum(readings.map((r) => r.lower));

/**
 * Each pour gives one value, Σ upper / Σ lower: sizes of one casting share its mould and metal, and do not count as
 * so many trials. Readings that stand apart from the others of their pour, and pours that stand apart from the
 * others, are left out and named. One pour alone is judged by its readings. Undefined without readings.
 * @param symbols of the ratio in the basis, for example `g = pattern / casting`
 */
export function estimateRatio(
  pours: readonly MeasuredPour[],
  symbols: { readonly name: string; readonly upper: string; readonly lower: string },
): RatioEstimate | undefined {
  const measured = pours.filter(({ readings }) => readings.length > 0);
  const [first] = measured;
  if (first === undefined) return undefined;
  const { name, upper, lower } = symbols;
  if (measured.length === 1) {
    const estimate = fromOnePour(first);
    const how =
      estimate.n === 1
        ? `${upper} / ${lower}, one reading: no interval`
        : `mean of ${upper} / ${lower} over ${estimate.n} sizes of one pour; the scatter from pour to pour is not in the interval`;
    return { ...estimate, basis: { rule: `${name} = ${how}`, source } };
  }
  const estimate = fromPours(measured);
  const freedom = `${estimate.n - 1} degree${estimate.n === 2 ? '' : 's'} of freedom`;
  const how = `mean over ${estimate.n} pours of Σ ${upper} / Σ ${lower}; ${Math.round(100 * confidence)} % interval with ${freedom}`;
  return { ...estimate, basis: { rule: `${name} = ${how}`, source } };
}

type Estimate = Omit<RatioEstimate, 'basis'>;

function fromOnePour(pour: MeasuredPour): Estimate {
  const { pours, outliers } = withoutBadReadings([pour]);
  const used = pours.flatMap((p) => p.readings.map(ratioOf));
  return {
    value: mean(used),
    interval: meanInterval(used),
    n: used.length,
    unit: 'readings',
    pours: 1,
    readings: used.length,
    outliers,
  };
}

function fromPours(all: readonly MeasuredPour[]): Estimate {
  const { pours, outliers } = withoutBadReadings(all);
  const values = pours.map((p) => pourRatio(p.readings));
  const out = outlying(values);
  const used = values.filter((_, i) => !out.includes(i));
  const apart = out.map((i): Outlier => ({ ...place(pours[i]!.record), size: null, ratio: values[i]! }));
  return {
    value: mean(used),
    interval: meanInterval(used),
    n: used.length,
    unit: 'pours',
    pours: used.length,
    readings: sum(pours.map((p, i) => (out.includes(i) ? 0 : p.readings.length))),
    outliers: [...outliers, ...apart],
  };
}

/** At most a fifth of the values is named, and one where there are at least four. */
const outlying = (values: readonly number[]): readonly number[] =>
  values.length < 4
    ? []
    : findOutliers(
        values,
        Math.min(mostOutliers, Math.max(1, Math.floor(values.length / 5))),
        outlierSignificance,
      );

/**
 * Takes out readings whose upper size is far from what the other sizes of the same pour foretell. The scatter to
 * judge by is pooled over all pours, in mm. Pours with fewer than three readings are left as they are: nobody could
 * tell which of two is wrong.
 */
function withoutBadReadings(pours: readonly MeasuredPour[]): {
  readonly pours: readonly MeasuredPour[];
  readonly outliers: readonly Outlier[];
} {
  const departures = pours.map(({ readings }) => {
    if (readings.length < 3) return readings.map(() => 0);
    const middle = weightedMedian(readings.map((r) => ({ value: ratioOf(r), weight: r.lower })));
    // Departures from a value fitted to k readings are smaller than the errors by √((k − 1)/k).
    const scale = Math.sqrt(readings.length / (readings.length - 1));
    return readings.map((r) => (r.upper - middle * r.lower) * scale);
  });
  const pooled = departures.filter((d) => d.length >= 3).flat();
  if (pooled.length === 0) return { pours, outliers: [] };
  const limit = Math.max(measuringError, farFromMedian * medianDeviation(pooled));
  const isBad = (i: number, k: number): boolean => Math.abs(departures[i]![k]!) > limit;
  return {
    pours: pours.map((p, i) => ({ ...p, readings: p.readings.filter((_, k) => !isBad(i, k)) })),
    outliers: pours.flatMap((p, i) =>
      p.readings.filter((_, k) => isBad(i, k)).map((r) => outlierOf(p.record, r)),
    ),
  };
}

const place = (record: PourRecord) => ({ date: record.date, flask: record.flask ?? null });

const outlierOf = (record: PourRecord, reading: Reading): Outlier => ({
  ...place(record),
  size: reading.size,
  ratio: ratioOf(reading),
});
