/** Investments (the mould's powder), their limits, and how much powder and water a volume of slurry takes. */
import { type Finding, stop, warn } from '../part/finding.js';
import { formatNumber, gramsPer } from '../units/index.js';
import type { Alloy, Spread } from './alloys/index.js';
import { blockInvestments } from './block-investments.js';
import { checkPositive, checkRange } from './input.js';
import { countMixes, mixingSteps } from './mixing.js';
import type { InvestmentPlan, WeighedSlurry } from './plans.js';
import { stepNear, stepUp, usualScaleStep } from './scale.js';
import { ceramicShell, type ShellCoats } from './shell/investment.js';

/** What every mould material has, whether it fills a flask or clothes the pattern. */
interface MouldMaterial {
  /** The word in jobs. */
  readonly name: string;
  readonly title: string;
  /** Top hold of the burnout, and the ceiling, °C. */
  readonly burnoutPeak: number;
  readonly maxBurnout: number;
  /** Hottest metal to pour into it, °C. */
  readonly maxMetal: number;
  /**
   * An insulating mould's face comes up to the metal's freezing temperature, so an alloy suits by its liquidus:
   * from `warnLiquidus` it is borderline, from `stopLiquidus` refused. °C; null for no such limit.
   */
  readonly warnLiquidus: number | null;
  readonly stopLiquidus: number | null;
  /** The dry mould: g/mm³, J/(g·K), W/(mm·K); MPa in bending, after the fire. */
  readonly mould: {
    readonly density: number;
    readonly specificHeat: number;
    readonly conductivity: number;
    readonly strength: number;
  };
  /**
   * Linear, as fractions: in setting, and by heat as [°C, fraction] joined by straight lines; low, usual and high,
   * since fillers and heating differ.
   */
  readonly expansion: {
    readonly setting: Spread;
    readonly thermal: Readonly<Record<'low' | 'usual' | 'high', readonly (readonly [number, number])[]>>;
  };
}

type MouldSource = 'limits' | 'mould' | 'expansion';

/** Powder and water, poured round the pattern in a flask. */
export interface BlockInvestment extends MouldMaterial {
  readonly coats?: never;
  /** g of water (or of the maker's liquid) to a gram of powder. */
  readonly waterRatio: number;
  /** Range the ratio may be set to. */
  readonly waterRatioRange: readonly [number, number];
  /** True density of the powder's grains, g/mm³. */
  readonly powderDensity: number;
  /** s from first contact until it may not be moved. */
  readonly workingTime: number;
  /** s to stand undisturbed before heating. */
  readonly standTime: number;
  readonly sources: Readonly<Record<MouldSource | 'ratio' | 'powderDensity' | 'times', string>>;
}

/** Slurry and stucco, laid on the pattern coat by coat. */
export interface ShellInvestment extends MouldMaterial {
  readonly coats: ShellCoats;
  readonly sources: Readonly<Record<MouldSource | 'coats' | 'slurry' | 'drying' | 'gaps', string>>;
}

/** An investment; a shell has `coats`. */
export type Investment = BlockInvestment | ShellInvestment;

/** In the order they are listed. */
export const investments: readonly Investment[] = [...blockInvestments, ceramicShell];

/** An investment by name, whatever the case; `undefined` when there is none. */
export function findInvestment(name: 'gypsum-bonded' | 'phosphate-bonded'): BlockInvestment;
export function findInvestment(name: 'ceramic-shell'): ShellInvestment;
export function findInvestment(name: string): Investment | undefined;
export function findInvestment(name: string): Investment | undefined {
  const wanted = name.trim().toLowerCase();
  return investments.find((i) => i.name === wanted);
}

/**
 * Density of mixed slurry by mass balance, g/mm³: ρ = (1 + w) / (1/ρp + w/ρw), no air, ρw = 1 g/cm³.
 * @param waterRatio w, g water per g powder, ≥ 0
 * @param powderDensity ρp, g/mm³, > 0
 */
export function slurryDensity(waterRatio: number, powderDensity: number): number {
  checkRange('waterRatio', waterRatio, 0, 5);
  checkPositive('powderDensity', powderDensity, 'g/mm³');
  return (1 + waterRatio) / (1 / powderDensity + waterRatio / waterDensity);
}

/** g/mm³ */
const waterDensity = 1e-3;

/**
 * More than the volume needs: what stays in the bucket and is trimmed off. 10 to 15 % is recommended; 12.5 % makes
 * about 25 one-can moulds of 400 g from a 25 lb bag, as the trade finds.
 */
export const defaultWaste = 0.125;

export interface SlurryMix {
  /** g, with waste. */
  readonly powder: number;
  readonly water: number;
}

/**
 * Powder and water for a volume of slurry.
 * @param volume mm³, ≥ 0
 * @param waste fraction added, 0 to 1
 */
export function mixFor(
  volume: number,
  investment: BlockInvestment,
  waterRatio = investment.waterRatio,
  waste = defaultWaste,
): SlurryMix {
  checkRange('volume', volume, 0, Number.POSITIVE_INFINITY, 'mm³');
  checkRange('wasteFraction', waste, 0, 1);
  checkRange('waterRatio', waterRatio, ...investment.waterRatioRange, 'g water per g powder');
  const mass = volume * slurryDensity(waterRatio, investment.powderDensity) * (1 + waste);
  const powder = mass / (1 + waterRatio);
  return { powder, water: mass - powder };
}

/**
 * What to weigh out: powder up to the scale's step, so that the flask is filled, and the water that the ratio asks of
 * it, to the nearest step. The ratio holds within half a step of water.
 */
export function weighSlurry(powder: number, waterRatio: number, step = usualScaleStep): WeighedSlurry {
  checkPositive('scaleStep', step, 'g');
  const weighed = stepUp(powder, step);
  return { step, powder: weighed, water: stepNear(weighed * waterRatio, step) };
}

export interface InvestmentInput {
  readonly investment: BlockInvestment;
  /** A flask plan each; `quantity` moulds of it (default 1). */
  readonly flasks: readonly {
    readonly powder: number;
    readonly water: number;
    readonly quantity?: number;
  }[];
  readonly waterRatio?: number;
  readonly wasteFraction?: number;
  /** Smallest step of the scale, g; default 1. */
  readonly scaleStep?: number;
  /** Under a bell jar, not by vibration; default no. */
  readonly vacuum?: boolean;
  /** g in a bag, default 25 lb. */
  readonly bag?: number;
}

/** g: the bag that the trade sells. */
export const usualBag = 25 * gramsPer.lb;

/**
 * The job's powder and water: the sum over its moulds, whose figures already hold the waste.
 * Give the same ratio and waste as to the flasks.
 */
export function planInvestment(input: InvestmentInput): InvestmentPlan {
  const { investment, waterRatio = investment.waterRatio, wasteFraction = defaultWaste } = input;
  checkRange('waterRatio', waterRatio, ...investment.waterRatioRange, 'g water per g powder');
  checkRange('wasteFraction', wasteFraction, 0, 1);
  const sum = (pick: 'powder' | 'water'): number =>
    input.flasks.reduce(
      (total, f) => total + checkRange(pick, f[pick], 0, Number.POSITIVE_INFINITY, 'g') * countOf(f.quantity),
      0,
    );
  const each = input.flasks.map((f) => ({
    weigh: weighSlurry(f.powder, waterRatio, input.scaleStep),
    count: countOf(f.quantity),
  }));
  const weighed = (pick: 'powder' | 'water'): number =>
    each.reduce((total, { weigh, count }) => total + weigh[pick] * count, 0);
  const bag = checkPositive('bag', input.bag ?? usualBag, 'g');
  return {
    name: investment.name,
    title: investment.title,
    waterRatio,
    slurryDensity: slurryDensity(waterRatio, investment.powderDensity),
    powder: sum('powder'),
    water: sum('water'),
    weigh: {
      step: input.scaleStep ?? usualScaleStep,
      powder: weighed('powder'),
      water: weighed('water'),
    },
    wasteFraction,
    workingTime: investment.workingTime,
    steps: mixingSteps(investment.workingTime, investment.standTime, input.vacuum ?? false),
    mixes: countMixes(
      input.flasks.flatMap((f) => Array<number>(countOf(f.quantity)).fill(f.powder + f.water)),
      investment.workingTime,
    ),
    bag,
    bags: sum('powder') / bag,
    bases: {
      waterRatio: {
        rule: `${Math.round(waterRatio * 1000) / 10} g water to 100 g powder`,
        source: waterRatio === investment.waterRatio ? investment.sources.ratio : 'set in the job',
      },
      slurryDensity: {
        rule: 'ρ = (1 + w) / (1/ρp + w)',
        source: `Mass balance; ρp ${investment.sources.powderDensity}`,
      },
      powder: {
        rule: `slurry volume × ρ / (1 + w) × ${1 + wasteFraction}`,
        source: 'Mass balance with 10–15 % for waste; common practice, no source',
      },
      weighOut: {
        rule: `powder up to ${formatNumber(input.scaleStep ?? usualScaleStep, { digits: 2 })} g, the scale's step; water by the ratio, to the nearest step`,
        source: 'Mass balance',
      },
      mixes: {
        rule: 'mix 1/3 of the working time, air out, fill 0.22 of it at 15 s and 50 g/s a flask, air out',
        source: 'Typical makers’ procedure for 9 min (from memory); filling: common practice, no source',
      },
      workingTime: { rule: 'from first contact of powder and water', source: investment.sources.times },
    },
  };
}

/** What a mould of the investment is called. */
export const mouldWord = (investment: Investment): 'flask' | 'shell' =>
  investment.coats ? 'shell' : 'flask';

/** Whether the mould stands the metal: refuses or warns by the alloy's liquidus and lowest pouring temperature. */
export function checkInvestment(investment: Investment, alloy: Alloy): readonly Finding[] {
  const lowestPour = alloy.pourRange.heavy[0];
  const { stopLiquidus, warnLiquidus, maxMetal } = investment;
  if ((stopLiquidus !== null && alloy.liquidus >= stopLiquidus) || lowestPour > maxMetal) {
    return [
      stop(
        'investment-unsuitable',
        `${alloy.title} (liquidus ${alloy.liquidus} °C, poured from ${lowestPour} °C) is too hot for ${investment.title.toLowerCase()}, which stands metal to ${maxMetal} °C.`,
        'Use phosphate-bonded investment or a ceramic shell, or another alloy.',
        'investment',
        'alloy',
      ),
    ];
  }
  if (warnLiquidus !== null && alloy.liquidus >= warnLiquidus) {
    return [
      warn(
        'investment-near-limit',
        `${alloy.title} freezes at ${alloy.liquidus} °C, near what ${investment.title.toLowerCase()} stands: the mould's face breaks down and gives off sulphur dioxide.`,
        'Pour as cool as the section allows, ventilate well, and expect a rougher surface; phosphate-bonded investment is safer.',
        'investment',
        'alloy',
      ),
    ];
  }
  return [];
}

function countOf(quantity: number | undefined): number {
  return quantity === undefined ? 1 : checkRange('quantity', quantity, 0, 10_000);
}
