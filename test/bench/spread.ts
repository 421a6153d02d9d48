/** What a row of times comes to. */
export interface Spread {
  readonly median: number;
  /** Half of the times lie between these. */
  readonly lower: number;
  readonly upper: number;
}

export function spreadOf(times: readonly number[]): Spread {
  const sorted = [...times].sort((a, b) => a - b);
  const at = (share: number): number => {
    const place = share * (sorted.length - 1);
    const [low, high] = [sorted[Math.floor(place)], sorted[Math.ceil(place)]];
    if (low === undefined || high === undefined) throw new Error('no times');
    return low + (high - low) * (place - Math.floor(place));
  };
  return { median: at(0.5), lower: at(0.25), upper: at(0.75) };
}

/** Median of the ratios of times that were measured next to each other. */
export const ratioOf = (times: readonly number[], against: readonly number[]): number =>
  spreadOf(times.map((time, i) => time / (against[i] as number))).median;
