/** Small sizes and few parts, to try the bench itself on a busy machine: its figures are for nothing else. */
export const isTrial = process.env.PATTERNWRIGHT_BENCH_TRIAL === '1';
