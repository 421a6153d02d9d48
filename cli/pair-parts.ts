import type { RankedPair } from '../core/gear/pair-ranking.js';
import type { GearSpec } from '../core/gear/spec.js';

/** Digits that a plate job keeps: far below any tolerance, short to read. */
const round = (value: number, digits = 6): number => Number(value.toFixed(digits));
const degreesIn = 180 / Math.PI;

/** The two `parts` entries of a plate job that make a pair; the mate has the other hand. */
export function pairParts(pair: RankedPair, gearType: string, faceWidth: number): readonly object[] {
  const entry = (name: string, spec: GearSpec, hand: 'left' | 'right') => ({
    name,
    part: `${gearType}-gear`,
    parameters: {
      ...(pair.module.series === 'DP'
        ? { diametralPitch: pair.module.diametralPitch }
        : { module: spec.normalModule }),
      teeth: spec.teeth,
      ...(spec.profileShift === 0 ? {} : { profileShift: round(spec.profileShift) }),
      ...(gearType === 'spur' ? {} : { helixAngle: `${round(spec.helixAngle * degreesIn, 8)}deg` }),
      ...(gearType === 'helical' ? { hand } : gearType === 'double-helical' ? { lowerHand: hand } : {}),
      ...(spec.thinning === 0 ? {} : { thinning: `${round(spec.thinning)}mm` }),
      ...(spec.tipShortening ? { tipShortening: `${round(spec.tipShortening)}mm` } : {}),
      faceWidth: `${round(faceWidth)}mm`,
    },
  });
  return [entry('gear-1', pair.gear, 'left'), entry('gear-2', pair.mate, 'right')];
}
