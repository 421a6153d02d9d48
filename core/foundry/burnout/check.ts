/** The check of any programme, ours or one made elsewhere. */
import { type Finding, stop, warn } from '../../part/finding.js';
import type { Investment } from '../investment.js';
import type { BurnoutSegment } from '../plans.js';
import { coreLag, crosses, hour, inversionRate, inversions } from './limits.js';
import { dryAt } from './steps.js';

/** °C of lag to warn at: a published programme takes 127 mm flasks up at about 150 °C/h (108 °C) and they stand. */
const crackLag = 110;

/**
 * Checks any programme: over the mould's ceiling is a `stop`, a ramp through an inversion that leaves the core more
 * than 110 °C behind is a `warn` (in a 66 mm can about 550 °C/h: between the 222 °C/h that stands and the mould
 * that was taken from 232 °C straight to 649 °C and cracked), and so is a programme with no hold of an hour between
 * 90 and 200 °C to dry in.
 */
export function checkBurnout(
  segments: readonly Pick<BurnoutSegment, 'from' | 'to' | 'rate' | 'soak'>[],
  diameter: number,
  investment: Investment,
): readonly Finding[] {
  const findings: Finding[] = [];
  const peak = Math.max(...segments.map((s) => s.to));
  if (peak > investment.maxBurnout) {
    findings.push(
      stop(
        'burnout-too-hot',
        `The programme reaches ${Math.round(peak)} °C; ${investment.title.toLowerCase()} stands ${investment.maxBurnout} °C.`,
        'Lower the top hold and the casting temperature, or use an investment that stands it.',
        'castingTemperature',
      ),
    );
  }
  if (!segments.some((s) => s.to >= 90 && s.to <= 200 && s.soak >= hour)) {
    findings.push(
      warn(
        'burnout-not-dried',
        'The programme has no hold of an hour or more between 90 and 200 °C: steam in a wet mould cracks it.',
        `Hold at ${dryAt} °C until the mould is dry through.`,
      ),
    );
  }
  for (const s of segments) {
    const passed = Object.entries(inversions).filter(([, band]) => crosses(s.from, s.to, band));
    const lag = coreLag(s.rate, diameter, investment);
    if (passed.length > 0 && lag > crackLag) {
      findings.push(
        warn(
          'burnout-ramp-steep',
          `${Math.round(s.from)} to ${Math.round(s.to)} °C at ${Math.round(Math.abs(s.rate))} °C/h passes the change of ${passed.map(([n]) => n).join(' and ')} with the core ${Math.round(lag)} °C behind: the mould may crack.`,
          `Ramp at ${inversionRate(diameter, investment)} °C/h or slower there.`,
        ),
      );
    }
  }
  return findings;
}
