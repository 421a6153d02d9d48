import { type Finding, warn } from '../../core/part/finding.js';

/** Gear practice keeps at least this many modules at the tip (from memory). */
const leastTip = 0.2;

/**
 * A warning where the tooth tips are thin, null where they are not.
 * @param thickness normal tip thickness s_an, mm
 * @param shifted whether the part has a profile shift
 */
export function thinTip(thickness: number, normalModule: number, shifted: boolean): Finding | null {
  if (thickness >= leastTip * normalModule) return null;
  return warn(
    'thin-tip',
    `The tooth tips are only ${thickness.toFixed(2)} mm thick, less than ${leastTip} modules: they fill badly and chip.`,
    `Use less ${shifted ? 'profile shift, ' : ''}thinning or addendum, or a tip shortening.`,
    ...(shifted ? ['profileShift'] : []),
    'thinning',
    'addendum',
    'tipShortening',
  );
}
