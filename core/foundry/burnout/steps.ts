/** The burnout's steps and holds as the trade makes them, before kiln and controller have their say. */
import type { TemperatureUnit } from '../../units/index.js';
import type { Investment } from '../investment.js';
import { climbRate, hour, inversionRate, inversions } from './limits.js';

/** mm: a one-can mould, whose programme the trade knows by its results. */
const oneCan = 66;
/** °C */
export const dryAt = 149;
const breakDownAt = 370;
/** °C/h, whatever the flask. */
const dryCap = 100;

/** A ramp and the soak at its end. */
export interface Step {
  readonly purpose: string;
  /** °C */
  readonly to: number;
  /** Fastest, °C/h. */
  readonly rate: number;
  /** Least, s. */
  readonly soak: number;
  readonly watch?: string;
}

export interface StepsInput {
  readonly diameter: number;
  readonly investment: Investment;
  /** Top hold and casting temperature, °C. */
  readonly peak: number;
  readonly target: number;
  /** Times the usual top hold, where the kiln stays under the usual peak. Default 1. */
  readonly peakHold?: number;
  /** The controller's scale, in whose whole degrees it is set; left out, °C, and `target` as it is. */
  readonly degrees?: TemperatureUnit;
}

/**
 * Dry, melt out, pass cristobalite slowly, break the plastic down, pass quartz slowly, burn the plastic, come to
 * the casting temperature: eight steps.
 */
export function burnoutSteps(input: StepsInput): readonly Step[] {
  const { diameter, investment, peak, target, peakHold = 1, degrees } = input;
  const climb = climbRate(diameter, investment);
  const slow = inversionRate(diameter, investment);
  const hold = (hours: number, least: number): number =>
    quarterHours(Math.max(least, (hours * diameter) / oneCan));
  const [cristobaliteFrom, cristobaliteTo] = inversions.cristobalite;
  const [quartzFrom, quartzTo] = inversions.quartz;
  const steps: readonly Step[] = [
    {
      purpose: 'dry the mould',
      to: dryAt,
      rate: Math.min(climb, dryCap),
      soak: hold(3, 2),
      watch: 'steam: while a cold glass at the vent mists, hold on',
    },
    {
      purpose: 'melt out the plastic',
      to: cristobaliteFrom,
      rate: climb,
      soak: 0,
      watch: 'plastic drips into the tray; vent open',
    },
    { purpose: 'pass the cristobalite change', to: cristobaliteTo, rate: slow, soak: 0, watch: 'no faster' },
    {
      purpose: 'break the plastic down',
      to: breakDownAt,
      rate: climb,
      soak: hold(2, 2),
      watch: 'smoke and smell: extraction on, door shut',
    },
    { purpose: 'climb', to: quartzFrom, rate: climb, soak: 0, watch: 'smoke thins, soot on the cups' },
    { purpose: 'pass the quartz change', to: quartzTo, rate: slow, soak: 0, watch: 'no faster' },
    {
      purpose: 'burn out the plastic',
      to: peak,
      rate: climb,
      soak: quarterHours((hold(4, 3) / hour) * peakHold),
      watch: 'no smoke or smell; cups white, no black, at the end',
    },
    // Down again through quartz: the same care. One hour's soak for every 2 in evens the mould out.
    {
      purpose: 'come to the casting temperature',
      to: target,
      rate: slow,
      soak: quarterHours(Math.max(1, diameter / 50.8)),
      watch: 'door shut; no cracks across the cups',
    },
  ];
  return degrees === undefined ? steps : steps.map((s) => ({ ...s, to: wholeDegree(s.to, degrees) }));
}

/** °C of the nearest whole degree of a scale. */
export const wholeDegree = (celsius: number, degrees: TemperatureUnit): number =>
  degrees === 'C' ? Math.round(celsius) : ((Math.round(celsius * 1.8 + 32) - 32) * 5) / 9;

/** °C/h of the whole degrees of a scale an hour, downward, so that a limit holds; at least one. */
export const wholeRate = (celsius: number, degrees: TemperatureUnit): number =>
  degrees === 'C'
    ? Math.max(1, Math.floor(celsius + 1e-9))
    : (Math.max(1, Math.floor(celsius * 1.8 + 1e-9)) * 5) / 9;

/** h to s, upward to a quarter hour. */
const quarterHours = (hours: number): number => Math.ceil(hours * 4 - 1e-9) * (hour / 4);
