/** The few statistics a small shop's log needs. The distributions are the jstat library's. */
import statistics from 'jstat';

export interface Interval {
  readonly low: number;
  readonly high: number;
}

/** Of every interval the log reports. */
export const confidence = 0.95;

const sum = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0);

export const mean = (values: readonly number[]): number => sum(values) / values.length;

/** With n − 1; at least two values. */
export function standardDeviation(values: readonly number[]): number {
  const middle = mean(values);
  return Math.sqrt(sum(values.map((x) => (x - middle) ** 2)) / (values.length - 1));
}

export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
}

/** The value with half the weight on either side; the mean of two where it falls between them. */
export function weightedMedian(
  values: readonly { readonly value: number; readonly weight: number }[],
): number {
  const sorted = [...values].sort((a, b) => a.value - b.value);
  const half = sum(sorted.map(({ weight }) => weight)) / 2;
  let below = 0;
  for (const [i, { value, weight }] of sorted.entries()) {
    below += weight;
    if (below > half) return value;
    if (below === half) return (value + (sorted[i + 1] ?? { value }).value) / 2;
  }
  return sorted.at(-1)!.value;
}

/** Median of the distances from the median × 1.4826: estimates σ of normal values in spite of wild ones. */
export function medianDeviation(values: readonly number[]): number {
  const middle = median(values);
  return 1.4826 * median(values.map((x) => Math.abs(x - middle)));
}

const quantiles = new Map<string, number>();

/** Student's t: exceeded with probability 1 − p. */
export function studentQuantile(p: number, degreesOfFreedom: number): number {
  const key = `${p}/${degreesOfFreedom}`;
  const known = quantiles.get(key) ?? statistics.studentt.inv(p, degreesOfFreedom);
  quantiles.set(key, known);
  return known;
}

/**
 * Confidence interval of the mean, x̄ ± t(n − 1) s/√n (NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.2).
 * Null for fewer than two values.
 */
export function meanInterval(values: readonly number[], level = confidence): Interval | null {
  const n = values.length;
  if (n < 2) return null;
  const half = (studentQuantile((1 + level) / 2, n - 1) * standardDeviation(values)) / Math.sqrt(n);
  return { low: mean(values) - half, high: mean(values) + half };
}

/**
 * The indices of outliers by the generalised extreme Studentised deviate test (Rosner 1983; NIST/SEMATECH
 * e-Handbook, 1.3.5.17.3), the furthest first. It finds several outliers that would hide each other.
 * @param most outliers looked for; two values always stay
 * @param significance chance of naming one where there is none
 */
export function findOutliers(
  values: readonly number[],
  most: number,
  significance: number,
): readonly number[] {
  const n = values.length;
  const left = values.map((value, index) => ({ value, index }));
  const taken: number[] = [];
  let found = 0;
  for (let i = 1; i <= most && left.length > 2; i++) {
    const plain = left.map((x) => x.value);
    const middle = mean(plain);
    const deviation = standardDeviation(plain);
    if (!(deviation > 0)) break;
    let furthest = 0;
    for (const [k, { value }] of left.entries())
      if (Math.abs(value - middle) > Math.abs(left[furthest]!.value - middle)) furthest = k;
    const reach = Math.abs(left[furthest]!.value - middle) / deviation;
    taken.push(left.splice(furthest, 1)[0]!.index);
    const t = studentQuantile(1 - significance / (2 * (n - i + 1)), n - i - 1);
    const limit = ((n - i) * t) / Math.sqrt((n - i - 1 + t * t) * (n - i + 1));
    if (reach > limit) found = i;
  }
  return taken.slice(0, found);
}

/**
 * Wilson's score interval of a proportion, without continuity correction (Newcombe, Statistics in Medicine 17,
 * 1998, method 3).
 * @param count of `total`, 0 ≤ count ≤ total, total ≥ 1
 */
export function wilsonInterval(count: number, total: number, level = confidence): Interval {
  const z2 = statistics.normal.inv((1 + level) / 2, 0, 1) ** 2;
  const p = count / total;
  const middle = p + z2 / (2 * total);
  const half = Math.sqrt(z2 * ((p * (1 - p)) / total + z2 / (4 * total * total)));
  const over = 1 + z2 / total;
  return { low: Math.max(0, (middle - half) / over), high: Math.min(1, (middle + half) / over) };
}

/**
 * Fisher's exact test of a two-by-two table, two-sided: the chance of a table no likelier than this one when rows
 * and columns have nothing to do with each other.
 */
export function fisherExact([a, b]: readonly [number, number], [c, d]: readonly [number, number]): number {
  const [total, marked, drawn] = [a + b + c + d, a + c, a + b];
  const [least, most] = [Math.max(0, drawn + marked - total), Math.min(drawn, marked)];
  // From the likeliest table outward, each chance from its neighbour's: quick in large tables too.
  const likeliest = Math.floor(((drawn + 1) * (marked + 1)) / (total + 2));
  const chances = new Map([[likeliest, statistics.hypgeom.pdf(likeliest, total, marked, drawn)]]);
  const upward = (k: number): number =>
    ((marked - k) * (drawn - k)) / ((k + 1) * (total - marked - drawn + k + 1));
  for (let k = likeliest; k < most; k++) chances.set(k + 1, chances.get(k)! * upward(k));
  for (let k = likeliest; k > least; k--) chances.set(k - 1, chances.get(k)! / upward(k - 1));
  // Tables of equal chance differ by rounding.
  const limit = chances.get(a)! * (1 + 1e-7);
  return Math.min(1, sum([...chances.values()].filter((chance) => chance <= limit)));
}

/** p-values for `all` tests made at once, by Holm's step-down method (Scandinavian J. of Statistics 6, 1979). */
export function adjustForMany(p: readonly number[]): readonly number[] {
  const order = p.map((value, index) => ({ value, index })).sort((a, b) => a.value - b.value);
  const adjusted = new Array<number>(p.length);
  let largest = 0;
  for (const [rank, { value, index }] of order.entries()) {
    largest = Math.max(largest, Math.min(1, (p.length - rank) * value));
    adjusted[index] = largest;
  }
  return adjusted;
}
