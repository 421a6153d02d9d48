/** Random cases are the same in each run, so that what fails once fails again; PATTERNWRIGHT_SEED=n tries others. */
export const givenSeed = (usual: number): number => Number(process.env.PATTERNWRIGHT_SEED ?? usual);
