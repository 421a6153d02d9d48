/** What a programme takes out of the wall: heat for the moulds and their water, and what the kiln loses. */
import type { Investment } from '../investment.js';
import type { BurnoutEnergy, BurnoutSegment } from '../plans.js';
import type { BurnoutFlask, BurnoutKiln } from './kiln.js';
import { mouldWater, waterHeat } from './mould-water.js';

/** °C: top temperature taken where the kiln's is not known. */
const usualTop = 1100;
/** Share of its rated power that a kiln needs to hold its top temperature. */
const holdingShare = 0.5;
const room = 20;

/** W lost through walls and vent: half the rated power at the kiln's top temperature, less in proportion below. */
export const wallLoss = (kiln: BurnoutKiln, power: number, temperature: number): number =>
  (holdingShare * power * Math.max(0, temperature - room)) / ((kiln.topTemperature ?? usualTop) - room);

/** J to warm all moulds by one degree; J for their water, from `start`. */
export function mouldHeats(
  flasks: readonly BurnoutFlask[],
  investment: Investment,
  start: number,
): { readonly perDegree: number; readonly water: number } {
  const volume = flasks.reduce(
    (sum, f) => sum + (f.mouldVolume ?? (Math.PI / 4) * f.diameter ** 2 * f.height) * (f.quantity ?? 1),
    0,
  );
  return {
    perDegree: volume * investment.mould.density * investment.mould.specificHeat,
    water: volume * waterHeat(mouldWater(investment), start),
  };
}

/**
 * Heat balance, J: all moulds to the peak, their water to steam, and the walls' loss over the programme, once for
 * each load. The kiln's own bricks come within the share of the walls; electric, so all of it is paid for.
 */
export function burnoutEnergy(
  segments: readonly BurnoutSegment[],
  flasks: readonly BurnoutFlask[],
  investment: Investment,
  kiln: BurnoutKiln,
  loads: number,
): BurnoutEnergy | null {
  const { power } = kiln;
  if (power === undefined) return null;
  const start = segments[0]?.from ?? room;
  const peak = Math.max(start, ...segments.map((s) => s.to));
  const { perDegree, water } = mouldHeats(flasks, investment, start);
  const walls =
    loads *
    segments.reduce(
      (sum, s) =>
        sum + wallLoss(kiln, power, (s.from + s.to) / 2) * s.ramp + wallLoss(kiln, power, s.to) * s.soak,
      0,
    );
  const moulds = perDegree * (peak - start);
  return {
    moulds,
    water,
    walls,
    total: moulds + water + walls,
    basis: {
      rule: `moulds m c ΔT, water ${Math.round(waterHeat(mouldWater(investment), start) * 1e3) / 1e3} J/mm³, walls half the rated power at the kiln's top temperature and less in proportion below`,
      source: 'Heat balance; the walls’ share: common practice, no source',
    },
  };
}
