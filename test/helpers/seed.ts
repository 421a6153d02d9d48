/** Random cases are the same in each run, so that what fails once fails again. PATTERNWRIGHT_SEED=n tries others. */
import fc from 'fast-check';

fc.configureGlobal({ seed: Number(process.env.PATTERNWRIGHT_SEED ?? 20_261_126) });
