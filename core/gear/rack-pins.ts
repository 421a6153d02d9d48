import { maths } from '../maths/maths.js';
import type { RackSpec } from './rack-form.js';

/** Pin in a tooth space of a rack, in the section normal to the teeth; heights above the datum line, mm. */
export interface RackPin {
  readonly pinDiameter: number;
  readonly centreHeight: number;
  /** Top of the pin. */
  readonly topHeight: number;
  /** Where pin and flanks touch. */
  readonly contactHeight: number;
}

/**
 * A pin touches both plane flanks of the space, whose width at the datum line is π m_n / 2 + thinning = w: its centre
 * stands at D_M / (2 sin α) − w / (2 tan α). Elements of Metric Gear Technology, section 10 (racks over pins), which
 * writes the same from the back of the rack.
 */
export function rackPin(
  rack: Pick<RackSpec, 'normalModule' | 'normalPressureAngle' | 'thinning'>,
  pinDiameter: number,
): RackPin {
  const { normalModule, normalPressureAngle: alpha, thinning } = rack;
  const width = (Math.PI * normalModule) / 2 + thinning;
  const centreHeight = pinDiameter / (2 * maths.sin(alpha)) - width / (2 * maths.tan(alpha));
  return {
    pinDiameter,
    centreHeight,
    topHeight: centreHeight + pinDiameter / 2,
    contactHeight: centreHeight - (pinDiameter / 2) * maths.sin(alpha),
  };
}

/** The pin that touches at the datum line, mm: D_M = w / cos α. */
export const idealRackPin = (
  rack: Pick<RackSpec, 'normalModule' | 'normalPressureAngle' | 'thinning'>,
): number => ((Math.PI * rack.normalModule) / 2 + rack.thinning) / maths.cos(rack.normalPressureAngle);
