import type { Alloy } from '../../foundry/alloys/index.js';
import { type Investment, mouldWord } from '../../foundry/investment.js';
import type { GatingPlan } from '../../foundry/plans.js';
import { type Finding, note, warn } from '../../part/finding.js';
import type { FreezePlan } from '../plans.js';
import { lateFindings } from './late-findings.js';
import type { FoundPlace } from './late-places.js';
import { type Landmarks, placeText, volumeText } from './place-words.js';

/** What the readings are told by. */
export interface ReadingContext {
  readonly alloy: Alloy;
  readonly investment: Investment;
  readonly gating: GatingPlan;
}

type Readings = Pick<FreezePlan, 'fill' | 'feed' | 'niyama' | 'facePeak'> & {
  readonly places: readonly FoundPlace[];
  /** mm³ of metal in the castings. */
  readonly volume: number;
};

/** What filling and freezing need the bench to know, the most serious first. */
export function freezeFindings(
  readings: Readings,
  context: ReadingContext,
  bottom: number,
): readonly Finding[] {
  const marks = { gates: context.gating.gates, bottom };
  return [
    ...fillFindings(readings, context, marks),
    ...lateFindings(readings.places, marks),
    ...faceFindings(readings.facePeak, context, marks),
    ...feedFindings(readings.feed, context.gating),
    ...niyamaFindings(readings.niyama, context.alloy),
  ];
}

/** Cavity that is left over as crumbs of cells, mm³ and as a share of the castings. */
const crumb = { volume: 20, share: 1e-3 };

function fillFindings(
  { fill, volume }: Readings,
  { investment }: ReadingContext,
  marks: Landmarks,
): readonly Finding[] {
  const findings: Finding[] = [];
  const mould = mouldWord(investment);
  if (fill.unreached > Math.max(crumb.volume, crumb.share * volume))
    findings.push(
      warn(
        'cavity-not-reached',
        `No metal reaches ${volumeText(fill.unreached)} of the cavity.`,
        'Join what stands apart to the part or its gating, and vent what is higher than the cup’s level.',
      ),
    );
  const [worst] = fill.thinPlaces;
  if (worst) {
    const all = fill.thinPlaces.reduce((sum, p) => sum + p.volume, 0);
    const count = fill.thinPlaces.length;
    const margin = `${worst.margin.toFixed(2)} of the time it needs to fill`;
    findings.push(
      (worst.margin < 1 ? warn : note)(
        'may-not-fill',
        `Metal about ${worst.thickness.toFixed(1)} mm thick, ${placeText(worst.at, marks)}, has ${margin} before it stops flowing; it should have ${fill.marginLimit}. ${count === 1 ? 'The place holds' : `${count} such places hold`} ${volumeText(all)}.`,
        `Heat the ${mould} more, then the metal; shorten the way from kiln to pour; pour faster (pourTime); put a vent there; or make it thicker.`,
        'pourTime',
        'ventLeastDiameter',
        'leastHead',
      ),
    );
  }
  return findings;
}

function faceFindings(
  { temperature, at, limit }: FreezePlan['facePeak'],
  { investment }: ReadingContext,
  marks: Landmarks,
): readonly Finding[] {
  if (temperature <= limit) return [];
  return [
    warn(
      'face-too-hot',
      `The mould’s face comes to ${temperature.toFixed(0)} °C ${placeText(at, marks)}; ${investment.title.toLowerCase()} stands ${limit} °C.`,
      `Pour cooler metal, or into a cooler ${mouldWord(investment)}; or take an investment that stands it.`,
      'metalTemperature',
      'investment',
    ),
  ];
}

/** What a feeder gives is known no better than to a tenth. Common practice, no source. */
const feedSlack = 1.1;

/** The gating plan tells what is short for freezing alone; here, what only the cooling liquid takes beyond it. */
function feedFindings({ demand, supply }: FreezePlan['feed'], { fill }: GatingPlan): readonly Finding[] {
  if (fill.feedSupply < fill.feedDemand || feedSlack * supply >= demand) return [];
  return [
    note(
      'feed-short-cooling',
      `Cooling to its liquidus and freezing the casting asks for ${volumeText(demand)}; cup and sprue can give ${volumeText(supply)}, enough for freezing alone.`,
      'Pour no hotter than it needs to fill, fill up the cup as it sinks, or allow a wider cup (cupLargestDiameter).',
      'cupLargestDiameter',
    ),
  ];
}

/** Only a metal that freezes over so few °C keeps its pores to the middle (J. Campbell, Complete Casting Handbook, from memory: short under 50 K). */
const shortRange = 50;

function niyamaFindings({ below, limit }: FreezePlan['niyama'], alloy: Alloy): readonly Finding[] {
  if (alloy.liquidus - alloy.solidus >= shortRange || below <= 0.5) return [];
  return [
    note(
      'small-gradients',
      `${(100 * below).toFixed(0)} % of the castings' metal freezes under Niyama's ${limit.toFixed(2)} √(K·s)/mm: fine pores on the middle of its walls are likely.`,
      'Usual in a hot insulating mould; where the part must be tight, taper its walls towards the gate, or pour into a cooler mould.',
    ),
  ];
}
