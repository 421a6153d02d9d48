/** The burnout programme as ramp-and-soak segments that kiln, controller and mould can follow. */
import { type Finding, note, warn } from '../../part/finding.js';
import type { TemperatureUnit } from '../../units/index.js';
import { checkRange } from '../input.js';
import type { BlockInvestment } from '../investment.js';
import type { Plastic } from '../material.js';
import type { Basis, FlaskBurnout } from '../plans.js';
import { checkBurnout } from './check.js';
import type { BurnoutTime } from './clock.js';
import { joinSteps } from './controller.js';
import { type BurnoutFlask, type BurnoutKiln, checkSharing, kilnPeak } from './kiln.js';
import { checkController, kilnRun, segmentOf, withinKiln } from './kiln-run.js';
import { hour, inversions } from './limits.js';
import { holdLag, simulateMould } from './simulate.js';
import { burnoutSteps, type Step, wholeDegree } from './steps.js';

/** Inside diameter of the widest flask whose conduction is worked out, mm. */
export const widestFlask = 300;

export interface BurnoutInput {
  /** Inside diameter of the largest flask, mm, 20 to `widestFlask`. */
  readonly largestFlaskDiameter: number;
  /** Its inside height, mm, 20 to 1000; left out, the mould counts as endless, which dries slower. */
  readonly largestFlaskHeight?: number;
  readonly plastic: Plastic;
  /** The flask's temperature at the pour, °C. */
  readonly castingTemperature: number;
  readonly investment: BlockInvestment;
  /** g water per g powder; default the investment's. */
  readonly waterRatio?: number;
  readonly kiln?: BurnoutKiln;
  /** All the moulds, for loads, energy and what they share. Default: the largest alone. */
  readonly flasks?: readonly BurnoutFlask[];
  /** The controller's scale: set points and rates come in its whole degrees. Left out: °C, casting temperature as given. */
  readonly degrees?: TemperatureUnit;
  /** When the programme starts, or is to be ready: gives `clock`. */
  readonly time?: BurnoutTime;
  /** W/(mm²·K) from kiln to skin; left out, the skin has the kiln's temperature. */
  readonly film?: number;
  /** °C, default 20. */
  readonly startTemperature?: number;
}

/**
 * Dry, melt out, pass cristobalite slowly, break the plastic down, pass quartz slowly, burn the plastic, come to
 * the casting temperature: eight segments, or fewer where the controller takes fewer (ramps are joined at the slower
 * rate; four at least, since no hold is given up).
 *
 * Holds grow in proportion to the flask's diameter from the one-can programme of the trade (3 h at 149 °C, 2 h at
 * 371 °C, 4 h at the top), never less than 2, 2 and 3 h; published wax programmes hold less at the first two, since
 * wax leaves at once and printed plastic swells first. Then the mould, with its water, is run through the programme
 * by conduction: a hold that ends with the core 20 °C or more from the skin is lengthened by quarter hours until it
 * does not. Ramps keep the core within 80 °C of the skin (40 °C through the inversions). The first ramp, 100 °C/h at
 * most, lies between the trade's 129 °C/h and the 60 °C/h some advise.
 * @throws FoundryInputError when a size is out of range.
 */
export function planBurnout(input: BurnoutInput): FlaskBurnout {
  const { investment, plastic, startTemperature = 20, kiln = {}, degrees } = input;
  const diameter = checkRange('largestFlaskDiameter', input.largestFlaskDiameter, 20, widestFlask, 'mm');
  const height = input.largestFlaskHeight;
  if (height !== undefined) checkRange('largestFlaskHeight', height, 20, 1000, 'mm');
  const wanted = checkRange('castingTemperature', input.castingTemperature, startTemperature, 1400, '°C');
  checkRange('startTemperature', startTemperature, -30, 60, '°C');
  if (kiln.segments !== undefined) checkRange('segments', kiln.segments, 1, 1000);
  const target = degrees === undefined ? wanted : wholeDegree(wanted, degrees);
  const top = kilnPeak(investment.burnoutPeak, target, kiln);

  const wantedSteps = burnoutSteps({
    diameter,
    investment,
    peak: top.peak,
    target,
    peakHold: top.hold,
    ...(degrees === undefined ? {} : { degrees }),
  });
  const all = withinKiln(wantedSteps, startTemperature, kiln.rate, degrees ?? 'C');
  const most = kiln.segments ?? Number.POSITIVE_INFINITY;
  const steps = joinSteps(all, startTemperature, most);
  const mould = simulateMould(steps, startTemperature, {
    diameter,
    investment,
    ...(height === undefined ? {} : { height }),
    ...(input.waterRatio === undefined ? {} : { waterRatio: input.waterRatio }),
    ...(input.film === undefined ? {} : { film: input.film }),
  });
  const segments = steps.map((s, i) =>
    segmentOf(s, steps[i - 1]?.to ?? startTemperature, mould.soaks[i] as number, mould.lags[i] as number),
  );
  const flasks = input.flasks ?? [{ name: 'flask', diameter, height: height ?? 1.5 * diameter }];
  const run = kilnRun(segments, flasks, { investment, kiln, time: input.time });
  return {
    ...run.facts,
    core: mould.core,
    castingTemperature: target,
    flaskDiameter: diameter,
    findings: [
      ...checkBurnout(segments, diameter, investment),
      ...top.findings,
      ...checkController(steps.length, most),
      ...run.loadFindings,
      ...run.powerFindings,
      ...checkSharing(flasks, investment, target),
      ...lengthened(steps, mould.soaks),
      ...plasticNotes(plastic, target),
    ],
    bases: basesFor(height),
  };
}

const lengthened = (steps: readonly Step[], soaks: readonly number[]): readonly Finding[] =>
  steps.flatMap((s, i) => {
    const added = ((soaks[i] as number) - s.soak) / hour;
    return added <= 0
      ? []
      : [
          note(
            'burnout-hold-lengthened',
            `The hold to ${s.purpose.split(', ').at(-1)} is ${added} h longer than the trade's: until then core and skin are ${holdLag} °C or more apart.`,
            'A smaller flask is quicker: the time goes by the square of the diameter.',
          ),
        ];
  });

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

const basesFor = (height: number | undefined): Readonly<Record<string, Basis>> => ({
  holds: {
    rule: 'dry 3 h, break down 2 h, top 4 h for a 66 mm can, in proportion to the diameter; at least 2, 2 and 3 h',
    source: 'common practice, no source; no shorter than typical makers’ programmes for wax (from memory)',
  },
  coreLag: {
    rule: `conduction in ${height === undefined ? 'an endless cylinder' : 'the mould, both ends heated'}, skin at the kiln's temperature; holds lengthened until the core is within ${holdLag} °C`,
    source: 'Implicit finite volumes, tested against Incropera, table 5.1, and Carslaw & Jaeger, ch. VII',
  },
  water: {
    rule: 'water over 10 % of the dry mass wicks out to the skin; the rest boils inside at 100 °C; the gypsum’s goes at 101–160 °C',
    source: 'Perry’s table of critical moistures (sand, 200–325 mesh) and heats of change, from memory',
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
});
