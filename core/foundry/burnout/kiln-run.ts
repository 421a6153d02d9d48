/** A programme in a kiln with its controller and its moulds, of whatever kind. */
import { type Finding, warn } from '../../part/finding.js';
import type { TemperatureUnit } from '../../units/index.js';
import type { Investment } from '../investment.js';
import type { BurnoutPlan, BurnoutSegment } from '../plans.js';
import { type BurnoutTime, burnoutClock } from './clock.js';
import { burnoutEnergy, mouldHeats, wallLoss } from './energy.js';
import { type BurnoutFlask, type BurnoutKiln, kilnLoads, kilnRateBetween } from './kiln.js';
import { hour } from './limits.js';
import { type Step, wholeRate } from './steps.js';

/**
 * A step as the controller runs it.
 * @param from °C
 * @param soak s
 * @param lag °C between skin and core at its end
 */
export function segmentOf(
  { purpose, to, rate, watch }: Step,
  from: number,
  soak: number,
  lag: number,
): BurnoutSegment {
  return {
    purpose,
    from,
    to,
    rate: to === from ? 0 : Math.sign(to - from) * rate,
    ramp: (Math.abs(to - from) / rate) * hour,
    soak,
    coreLag: Math.round(lag * 10) / 10,
    ...(watch === undefined ? {} : { watch }),
  };
}

export interface KilnRun {
  readonly facts: Pick<BurnoutPlan, 'segments' | 'clock' | 'energy' | 'loads' | 'total' | 'peak'>;
  readonly loadFindings: readonly Finding[];
  /** Of a kiln too weak for its moulds. */
  readonly powerFindings: readonly Finding[];
}

/** What the programme comes to: time, clock, loads, energy. */
export function kilnRun(
  segments: readonly BurnoutSegment[],
  moulds: readonly BurnoutFlask[],
  how: {
    readonly investment: Investment;
    readonly kiln: BurnoutKiln;
    readonly time: BurnoutTime | undefined;
    readonly mould?: 'flask' | 'shell';
  },
): KilnRun {
  const { investment, kiln, time } = how;
  const { loads, findings } = kilnLoads(kiln, moulds, how.mould);
  const energy = burnoutEnergy(segments, moulds, investment, kiln, loads ?? 1);
  return {
    facts: {
      segments,
      ...(time === undefined ? {} : { clock: burnoutClock(segments, time) }),
      ...(energy === null ? {} : { energy }),
      ...(loads === null ? {} : { loads }),
      total: segments.reduce((t, s) => t + s.ramp + s.soak, 0),
      peak: Math.max(...segments.map((s) => s.to)),
    },
    loadFindings: findings,
    powerFindings: checkPower(segments, moulds, investment, kiln, loads ?? 1),
  };
}

/** Rates that the kiln can keep and the controller takes. */
export const withinKiln = (
  steps: readonly Step[],
  start: number,
  rate: BurnoutKiln['rate'],
  degrees: TemperatureUnit,
): readonly Step[] =>
  steps.map((s, i) => {
    const from = steps[i - 1]?.to ?? start;
    return { ...s, rate: wholeRate(Math.min(s.rate, kilnRateBetween(rate, from, s.to)), degrees) };
  });

export function checkController(needed: number, most: number): readonly Finding[] {
  if (needed <= most) return [];
  return [
    warn(
      'controller-segments-few',
      `The controller takes ${most} ${most === 1 ? 'segment' : 'segments'}; a safe burnout has ${needed}, one to each hold.`,
      `Set the first ${most}, with the last hold lengthened for the time you are away, then set the rest; or fit a controller with ${needed} or more.`,
      'segments',
    ),
  ];
}

/** Whether the kiln has the power for its moulds: heating them, and drying them in the first hold. */
function checkPower(
  segments: readonly BurnoutSegment[],
  flasks: readonly BurnoutFlask[],
  investment: Investment,
  kiln: BurnoutKiln,
  loads: number,
): readonly Finding[] {
  const { power } = kiln;
  if (power === undefined) return [];
  const { perDegree, water } = mouldHeats(flasks, investment, segments[0]?.from ?? 20);
  const [dry] = segments;
  const drying = dry === undefined ? 0 : water / (dry.ramp + dry.soak);
  const needs = segments.map((s, i) => {
    const heating = ((perDegree * Math.max(0, s.rate)) / hour + (i === 0 ? drying : 0)) / loads;
    return { i, watts: heating + wallLoss(kiln, power, s.to) };
  });
  const worst = needs.sort((a, b) => b.watts - a.watts)[0];
  if (worst === undefined || worst.watts <= power) return [];
  return [
    warn(
      'kiln-power-short',
      `Segment ${worst.i + 1} wants ${(worst.watts / 1000).toFixed(1)} kW for this load; the kiln has ${(power / 1000).toFixed(1)} kW and falls behind the programme.`,
      'Burn out fewer flasks at once, or let the controller wait for the kiln and expect a later end.',
      'power',
    ),
  ];
}
