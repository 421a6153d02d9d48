/** Bags, mixes and the clock of one mix. */
import type { MixingStep } from './plans.js';

/** s to fill a flask apart from the pouring itself, and g of slurry poured a second. Common practice, no source. */
const fillStart = 15;
const fillRate = 50;

/** Shares of the working time at which the steps of a mix end; see `mixingSteps`. */
const shares = { mixed: 1 / 3, clear: 1 / 2, filled: 0.72, settled: 0.9 } as const;

/**
 * The clock of one mix, in s from the first contact of powder and water. Typical makers' procedure for nine minutes of
 * working time (mix 3 min, air out 1½ min, fill 2 min, air out 1½ min; from memory), in proportion to the time there is.
 * @param workingTime s
 * @param standTime s to stand before heating
 */
export function mixingSteps(workingTime: number, standTime: number, vacuum: boolean): readonly MixingStep[] {
  const at = (share: number): number => Math.round((share * workingTime) / 5) * 5;
  return [
    { purpose: 'powder into the water; mix', from: 0, to: at(shares.mixed) },
    {
      purpose: vacuum
        ? 'draw the air out of the bowl under vacuum'
        : 'vibrate the bowl until bubbles stop rising',
      from: at(shares.mixed),
      to: at(shares.clear),
    },
    { purpose: 'fill the flasks, down their side', from: at(shares.clear), to: at(shares.filled) },
    {
      purpose: vacuum ? 'draw the air out of the flasks; top up' : 'vibrate the flasks; top up',
      from: at(shares.filled),
      to: at(shares.settled),
    },
    { purpose: 'leave them alone: it sets', from: at(shares.settled), to: workingTime },
    { purpose: 'stand before heating', from: workingTime, to: workingTime + standTime },
  ];
}

/** s to fill one flask. @param slurry g */
export const fillTime = (slurry: number): number => fillStart + slurry / fillRate;

/**
 * How many mixes fill the flasks one after another, each within the clock of `mixingSteps`. A flask too large for the
 * clock has a mix of its own.
 * @param slurries g in each flask, in the order of filling
 */
export function countMixes(slurries: readonly number[], workingTime: number): number {
  const window = (shares.filled - shares.clear) * workingTime;
  let mixes = 0;
  let left = 0;
  for (const slurry of slurries) {
    const time = fillTime(slurry);
    if (mixes === 0 || time > left) {
      mixes++;
      left = window;
    }
    left -= time;
  }
  return mixes;
}
