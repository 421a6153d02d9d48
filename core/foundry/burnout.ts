/** The burnout programme as ramp-and-soak segments, and the check of a programme made elsewhere. */
import { type Finding, note, stop, warn } from '../part/finding.js';
import { checkRange } from './input.js';
import type { Investment } from './investment.js';
import type { Plastic } from './material.js';
import type { Basis, BurnoutPlan, BurnoutSegment } from './plans.js';

/** Alpha–beta changes of the mould's silica, °C: the volume steps, so core and skin should pass together. */
export const inversions = {
  cristobalite: [200, 270],
  quartz: [540, 600],
} as const satisfies Record<string, readonly [number, number]>;

const hour = 3600;
/** mm: a one-can mould, whose programme the trade knows by its results. */
const oneCan = 66;
/** °C */
const dryAt = 149;
const breakDownAt = 370;
/** °C between skin and core that a steady ramp may cause: planned through an inversion, and planned elsewhere. */
const inversionLag = 40;
const climbLag = 80;
/** °C of lag to warn at: a published programme takes 127 mm flasks up at about 150 °C/h (108 °C) and they stand. */
const crackLag = 110;
/** °C/h, whatever the flask. */
const dryCap = 100;
const inversionCap = 100;
const climbCap = 150;

export interface BurnoutInput {
  /** Inside diameter of the largest flask, mm, 20 to 300. */
  readonly largestFlaskDiameter: number;
  readonly plastic: Plastic;
  /** The flask's temperature at the pour, °C. */
  readonly castingTemperature: number;
  readonly investment: Investment;
  /** Fastest the kiln heats, °C/h, at least 5. Default: no limit. */
  readonly kilnRate?: number;
  /** °C, default 20. */
  readonly startTemperature?: number;
}

/**
 * How far the core trails the skin in a long cylinder whose skin warms at a steady rate, °C: r R² / (4 α)
 * (Carslaw & Jaeger, Conduction of Heat in Solids, ch. VII). Dry mould; water makes it trail further.
 * @param rate °C/h
 * @param diameter mm
 */
export function coreLag(rate: number, diameter: number, investment: Investment): number {
  return Math.abs(rate / hour) * ((diameter / 2) ** 2 / (4 * diffusivity(investment)));
}

/** Fastest planned ramp through an inversion, °C/h. */
export const inversionRate = (diameter: number, investment: Investment): number =>
  rateFor(inversionLag, inversionCap, diameter, investment);

/**
 * Dry, melt out, pass cristobalite slowly, break the plastic down, pass quartz slowly, burn the plastic, come to
 * the casting temperature: eight segments at most.
 *
 * Holds grow in proportion to the flask's diameter from the one-can programme of the trade (3 h at 149 °C, 2 h at
 * 371 °C, 4 h at the top), never less than 2, 2 and 3 h; published wax programmes hold less at the first two, since
 * wax leaves at once and printed plastic swells first. Ramps keep the core within 80 °C of the skin (40 °C through the
 * inversions). The first ramp, 100 °C/h at most, lies between the trade's 129 °C/h and the 60 °C/h some advise.
 * @throws FoundryInputError when a size is out of range.
 */
export function planBurnout(input: BurnoutInput): BurnoutPlan {
  const { investment, plastic, startTemperature = 20, kilnRate = Number.POSITIVE_INFINITY } = input;
  const diameter = checkRange('largestFlaskDiameter', input.largestFlaskDiameter, 20, 300, 'mm');
  const target = checkRange('castingTemperature', input.castingTemperature, startTemperature, 1400, '°C');
  checkRange('startTemperature', startTemperature, -30, 60, '°C');
  if (kilnRate !== Number.POSITIVE_INFINITY) checkRange('kilnRate', kilnRate, 5, 2000, '°C/h');

  const climb = Math.min(kilnRate, rateFor(climbLag, climbCap, diameter, investment));
  const dry = Math.min(climb, dryCap);
  const slow = Math.min(kilnRate, inversionRate(diameter, investment));
  const peak = investment.burnoutPeak;
  const hold = (hours: number, least: number): number =>
    quarterHours(Math.max(least, (hours * diameter) / oneCan));
  const [cristobaliteFrom, cristobaliteTo] = inversions.cristobalite;
  const [quartzFrom, quartzTo] = inversions.quartz;
  const steps: readonly (readonly [string, number, number, number])[] = [
    ['dry the mould', dryAt, dry, hold(3, 2)],
    ['melt out the plastic', cristobaliteFrom, climb, 0],
    ['pass the cristobalite change', cristobaliteTo, slow, 0],
    ['break the plastic down', breakDownAt, climb, hold(2, 2)],
    ['climb', quartzFrom, climb, 0],
    ['pass the quartz change', quartzTo, slow, 0],
    ['burn out the plastic', peak, climb, hold(4, 3)],
    // Down again through quartz: the same care. One hour's soak for every 2 in evens the mould out.
    ['come to the casting temperature', target, slow, quarterHours(Math.max(1, diameter / 50.8))],
  ];
  const segments: BurnoutSegment[] = [];
  let from = startTemperature;
  for (const [purpose, to, rate, soak] of steps) {
    const signed = to === from ? 0 : Math.sign(to - from) * rate;
    segments.push({ purpose, from, to, rate: signed, ramp: (Math.abs(to - from) / rate) * hour, soak });
    from = to;
  }
  return {
    segments,
    total: segments.reduce((t, s) => t + s.ramp + s.soak, 0),
    peak: Math.max(peak, target),
    castingTemperature: target,
    flaskDiameter: diameter,
    findings: [...checkBurnout(segments, diameter, investment), ...plasticNotes(plastic, target)],
    bases,
  };
}

/**
 * Checks any programme: over the mould's ceiling is a `stop`, a ramp through an inversion that leaves the core more
 * than 110 °C behind is a `warn` (in a 66 mm can about 550 °C/h: between the 222 °C/h that stands and the mould
 * that was taken from 232 °C straight to 649 °C and cracked), and so is a programme with no hold of an hour between
 * 90 and 200 °C to dry in.
 */
export function checkBurnout(
  segments: readonly Omit<BurnoutSegment, 'purpose' | 'ramp'>[],
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

/** Whether a ramp runs through any part of a band, ends excluded. */
export const crosses = (from: number, to: number, [low, high]: readonly [number, number]): boolean =>
  Math.min(from, to) < high && Math.max(from, to) > low;

function plasticNotes(plastic: Plastic, castingTemperature: number): readonly Finding[] {
  return [
    note(
      'burnout-plastic',
      `${plastic.title}: ${plastic.burnoutNote}`,
      'Give the kiln air during the top hold.',
    ),
    ...(castingTemperature < inversions.cristobalite[1]
      ? [
          warn(
            'mould-cooled-through-cristobalite',
            `A mould at ${Math.round(castingTemperature)} °C has cooled through the cristobalite change, where it contracts and may crack.`,
            'Cool it slowly in the closed kiln and look at the cup for cracks before pouring.',
            'castingTemperature',
          ),
        ]
      : []),
  ];
}

/** mm²/s */
const diffusivity = ({ mould }: Investment): number =>
  mould.conductivity / (mould.density * mould.specificHeat);

/** °C/h, whole fives downward, so that the limit holds and the controller takes it. */
function rateFor(lag: number, cap: number, diameter: number, investment: Investment): number {
  const free = lag / coreLag(1, diameter, investment);
  return Math.max(5, Math.floor(Math.min(cap, free) / 5) * 5);
}

/** h to s, upward to a quarter hour. */
const quarterHours = (hours: number): number => Math.ceil(hours * 4 - 1e-9) * (hour / 4);

const bases: Readonly<Record<string, Basis>> = {
  holds: {
    rule: 'dry 3 h, break down 2 h, top 4 h for a 66 mm can, in proportion to the diameter; at least 2, 2 and 3 h',
    source: 'common practice, no source; no shorter than typical makers’ programmes for wax (from memory)',
  },
  ramps: {
    rule: 'core lag r R² / 4α ≤ 80 °C, through inversions ≤ 40 °C; at most 150 and 100 °C/h',
    source: 'Carslaw & Jaeger, ch. VII, for the lag; limits: common practice, no source',
  },
  inversions: { rule: 'cristobalite 200–270 °C, quartz 573 °C', source: 'from memory' },
  peak: {
    rule: 'gypsum-bonded 730 °C, under the ceiling of 750 °C',
    source: 'Published programmes 721–732 °C; jewellery trade and makers’ datasheets',
  },
};
