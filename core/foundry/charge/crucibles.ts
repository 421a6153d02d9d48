/** Crucibles, and what they hold of a metal without running over. */
import { maths } from '../../maths/maths.js';
import { gramsPer } from '../../units/index.js';
import { type Alloy, findAlloy } from '../alloys/index.js';
import { checkPositive } from '../input.js';

export interface Crucible {
  /** The word in shop profiles. */
  readonly name: string;
  readonly title: string;
  /** mm³, filled to the brim. */
  readonly brimVolume: number;
  /** Inside, at the rim, mm. */
  readonly mouthDiameter: number;
  readonly source: string;
}

/** Share of the brim volume that may be melted: room to skim, stir, lift and tilt (from memory). */
export const workingFill = 0.8;

/** Metal it may hold, g: brim volume × 0.8 × liquid density. */
export const workingCapacity = (
  c: Pick<Crucible, 'brimVolume'>,
  alloy: Pick<Alloy, 'liquidDensity'>,
): number => workingFill * c.brimVolume * alloy.liquidDensity;

/** Bilge sizes are numbered by the pounds of aluminium they melt, and of brass or bronze three times as many. */
const bronzePoundsPerNumber = 3;

/**
 * A crucible of the bilge shape by its size number. Its working volume is that of three pounds of tin bronze a
 * number, 174 ml; by the pound of aluminium it would be 189 ml, so aluminium is counted at 0.92 lb a number, the
 * safe side.
 */
export function bilgeCrucible(number: number): Crucible {
  checkPositive('bilge size', number);
  const bronze = findAlloy('tin-bronze') as Alloy;
  const volume = (number * bronzePoundsPerNumber * gramsPer.lb) / bronze.liquidDensity / workingFill;
  return {
    name: `bilge-${number}`,
    title: `Bilge crucible no. ${number}`,
    brimVolume: volume,
    mouthDiameter: mouthOf(volume),
    source:
      'School-foundry supplier: the size number is pounds of aluminium, three times as many of brass or bronze',
  };
}

/**
 * A crucible whose brim volume was measured: fill it with water, or with dry sand of known density.
 * @param volume mm³ to the brim
 * @param mouth mm inside at the rim; default: as a bilge crucible of that volume
 */
export function measuredCrucible(name: string, volume: number, mouth?: number): Crucible {
  checkPositive('brim volume', volume, 'mm³');
  if (mouth !== undefined) checkPositive('mouth diameter', mouth, 'mm');
  return {
    name,
    title: name,
    brimVolume: volume,
    mouthDiameter: mouth ?? mouthOf(volume),
    source: 'set in the shop profile',
  };
}

/** A pot as wide as it is deep (proportions of bilge crucibles, from memory). */
const mouthOf = (volume: number): number => maths.cbrt((4 * volume) / Math.PI);

/**
 * The bilge sizes in common use, after one small pot of the A shape, which does not follow the numbers: its supplier
 * gives 0.9 lb of aluminium or 2.2 lb of brass, and the smaller of the two volumes is taken.
 */
export const crucibles: readonly Crucible[] = [
  smallPot(),
  ...[1, 1.5, 2, 3, 4, 6, 8, 10, 12, 16, 20, 30, 40, 60].map(bilgeCrucible),
];

export function findCrucible(name: string, list: readonly Crucible[] = crucibles): Crucible | undefined {
  const wanted = name.trim().toLowerCase();
  return list.find((c) => c.name.toLowerCase() === wanted);
}

function smallPot(): Crucible {
  const brass = findAlloy('yellow-brass') as Alloy;
  const volume = (2.2 * gramsPer.lb) / brass.liquidDensity / workingFill;
  return {
    name: 'a0',
    title: 'A-shape crucible A0',
    brimVolume: volume,
    mouthDiameter: mouthOf(volume),
    source: 'Hobby-foundry supplier: 0.9 lb of aluminium or 2.2 lb of brass',
  };
}
