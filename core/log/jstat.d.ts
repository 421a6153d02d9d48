/** What is used of jstat, which ships no types. */
declare module 'jstat' {
  interface Statistics {
    readonly studentt: { inv(probability: number, degreesOfFreedom: number): number };
    readonly normal: { inv(probability: number, mean: number, deviation: number): number };
    /** Chance of `k` marked ones in `drawn` out of `total` that hold `marked`. */
    readonly hypgeom: { pdf(k: number, total: number, marked: number, drawn: number): number };
  }
  const statistics: Statistics;
  export default statistics;
}
