/** Metal and flask temperatures for one alloy's pour, and the order to pour in. */
import { type Finding, note, stop, warn } from '../part/finding.js';
import type { Alloy, Range } from './alloys/index.js';
import { checkPositive, checkRange, FoundryInputError } from './input.js';
import { interpolate } from './interpolate.js';
import { checkInvestment, type Investment, mouldWord } from './investment.js';
import type { Basis, PourPlan } from './plans.js';

export interface PourInput {
  readonly alloy: Alloy;
  /** The patterns this melt fills; `thinnestModulus` is V/A of the thinnest wall, mm (half a plate's thickness). */
  readonly parts: readonly { readonly name: string; readonly thinnestModulus: number }[];
  readonly investment: Investment;
  /** °C, set in the job. */
  readonly metalTemperature?: number;
  readonly flaskTemperature?: number;
}

/**
 * Temperatures by the thinnest section of all, since one melt and one kiln serve them: straight lines in the modulus
 * at 0.5, 1, 4 and 10 mm (plates of 1, 2, 8 and 20 mm). The flask runs from the top of its thin range by the middles
 * of both to the foot of the thick one. The metal runs from the middle of its light range by that range's foot and the
 * middle of the heavy range to the foot of that: the top of a light range is meant for cold moulds, and a hot
 * investment mould fills with less superheat. Metal is capped at what the investment stands. Order: thinnest first, while the metal is hottest; equal
 * ones keep the order given.
 * @throws FoundryInputError for an empty list, a modulus that is not positive, temperatures out of range.
 */
export function planPour(input: PourInput): PourPlan {
  const { alloy, investment, parts } = input;
  if (parts.length === 0)
    throw new FoundryInputError('parts', 'an empty list', 'give at least one part to pour');
  for (const p of parts) checkPositive(`${p.name} thinnestModulus`, p.thinnestModulus, 'mm');
  const order = [...parts].sort((a, b) => a.thinnestModulus - b.thinnestModulus);
  const modulus = order[0]!.thinnestModulus;
  const { light, heavy } = alloy.pourRange;
  const { thin, thick } = alloy.flaskRange;
  const findings: Finding[] = [...checkInvestment(investment, alloy)];
  const suits = !findings.some((f) => f.severity === 'stop');

  const cap = suits ? investment.maxMetal : Number.POSITIVE_INFINITY;
  const free = bySection(modulus, [
    middle(light),
    Math.max(light[0], middle(heavy)),
    middle(heavy),
    heavy[0],
  ]);
  const metal = input.metalTemperature ?? Math.min(cap, free);
  if (input.metalTemperature === undefined && free > cap) {
    findings.push(
      note(
        'pour-capped',
        `So thin a section would be poured at ${Math.round(free)} °C; ${investment.title.toLowerCase()} stands ${cap} °C.`,
        `A hotter ${mouldWord(investment)} helps it fill.`,
      ),
    );
  }
  const flask =
    input.flaskTemperature ?? bySection(modulus, [thin[1], middle(thin), middle(thick), thick[0]]);
  const metalRange: Range = [heavy[0], Math.min(cap, light[1])];
  const flaskRange: Range = [thick[0], thin[1]];
  findings.push(...checkSetMetal(input, metalRange), ...checkSetFlask(input, flaskRange));
  for (const p of order) findings.push(...checkSection(p, alloy, mouldWord(investment)));
  return {
    alloy: alloy.name,
    title: alloy.title,
    liquidus: alloy.liquidus,
    metalTemperature: metal,
    metalRange,
    flaskTemperature: flask,
    flaskRange,
    order: order.map((p) => p.name),
    findings,
    bases: {
      metalTemperature: basisOf(
        input.metalTemperature,
        `within ${metalRange.join('–')} °C by the thinnest modulus, ${round(modulus)} mm: the thinner the hotter`,
        `Range: ${alloy.sources.pour}; place in it: common practice, no source`,
      ),
      flaskTemperature: basisOf(
        input.flaskTemperature,
        `within ${flaskRange.join('–')} °C by the thinnest modulus, ${round(modulus)} mm: the thinner the hotter`,
        `Range: ${alloy.sources.flask}; place in it: common practice, no source`,
      ),
      order: { rule: 'thinnest section first', source: 'common practice, no source' },
    },
  };
}

/** mm: where the straight lines meet. */
const knots = [0.5, 1, 4, 10] as const;

/**
 * Coolest metal that still fills a section, °C: the foot of the light range for the thinnest, and of the heavy range
 * from a modulus of 4 mm (common practice, no source). Half a range under what `planPour` starts at.
 */
export function lowestPour(alloy: Pick<Alloy, 'pourRange'>, modulus: number): number {
  const [light, heavy] = [alloy.pourRange.light[0], alloy.pourRange.heavy[0]];
  return bySection(modulus, [light, (light + heavy) / 2, heavy, heavy]);
}

/** Runs through a temperature at each knot, level outside them. */
const bySection = (modulus: number, values: readonly [number, number, number, number]): number =>
  interpolate(
    knots.map((knot, i) => [knot, values[i] as number]),
    modulus,
  );

function checkSetMetal({ metalTemperature: set, alloy }: PourInput, range: Range): readonly Finding[] {
  if (set === undefined) return [];
  checkRange('metalTemperature', set, 0, 2000, '°C');
  if (set <= alloy.liquidus)
    return [
      stop(
        'pour-below-liquidus',
        `The pour at ${Math.round(set)} °C is not above the liquidus of ${alloy.title}, ${alloy.liquidus} °C.`,
        `Pour from ${range[0]} to ${range[1]} °C.`,
        'metalTemperature',
      ),
    ];
  return outside('metalTemperature', 'pour-outside-range', 'The pour', set, range);
}

function checkSetFlask(
  { flaskTemperature: set, alloy, investment }: PourInput,
  range: Range,
): readonly Finding[] {
  if (set === undefined) return [];
  checkRange('flaskTemperature', set, 0, 1400, '°C');
  if (set >= alloy.solidus)
    return [
      stop(
        'flask-above-solidus',
        `A ${mouldWord(investment)} at ${Math.round(set)} °C never lets ${alloy.title} (solidus ${alloy.solidus} °C) freeze from the part to the sprue.`,
        `Use ${range[0]} to ${range[1]} °C.`,
        'flaskTemperature',
      ),
    ];
  return outside('flaskTemperature', 'flask-outside-range', `The ${mouldWord(investment)}`, set, range);
}

function outside(
  parameter: string,
  code: string,
  what: string,
  value: number,
  [low, high]: Range,
): readonly Finding[] {
  if (value >= low && value <= high) return [];
  return [
    warn(
      code,
      `${what} at ${Math.round(value)} °C is outside the usual ${low} to ${high} °C.`,
      'Keep inside it unless your own log says better.',
      parameter,
    ),
  ];
}

function checkSection(
  part: { name: string; thinnestModulus: number },
  alloy: Alloy,
  mould: string,
): readonly Finding[] {
  const wall = 2 * part.thinnestModulus;
  if (wall >= alloy.minimumSection) return [];
  return [
    warn(
      'section-thin',
      `${part.name}: the thinnest section is about a ${round(wall)} mm wall; ${alloy.title} fills ${alloy.minimumSection} mm.`,
      `Thicken it, or pour it first into the hottest ${mould} and expect misruns.`,
    ),
  ];
}

const basisOf = (set: number | undefined, rule: string, source: string): Basis =>
  set === undefined ? { rule, source } : { rule: `${Math.round(set)} °C`, source: 'set in the job' };

const middle = ([low, high]: Range): number => (low + high) / 2;
const round = (x: number): number => Math.round(x * 100) / 100;
