/** Which castings are poured from which crucible. */
import { checkPositive, checkRange } from '../input.js';

export interface HeatCasting {
  readonly name: string;
  /** Moulds of it. */
  readonly quantity: number;
  /** Metal in one mould, casting with gating, g. */
  readonly metal: number;
  /** V/A of its thinnest wall, mm. */
  readonly thinnestModulus: number;
  /** s that one mould takes to fill, where known. */
  readonly pourTime?: number;
}

export interface HeatMould {
  readonly name: string;
  /** Of its quantity, from 1. */
  readonly copy: number;
  readonly metal: number;
  readonly thinnestModulus: number;
  readonly pourTime?: number;
}

export interface HeatSplit {
  /** Moulds in the order of pouring. */
  readonly heats: readonly (readonly HeatMould[])[];
  /** Castings one of whose moulds asks more than a heat has; each stands in a heat of its own. */
  readonly tooLarge: readonly string[];
}

/**
 * Puts whole moulds into heats of at most `capacity` g in the moulds and `mostMoulds` moulds; one mould is never
 * filled from two. Two ways are tried: thinnest first into the first heat with room, and largest first into the first
 * heat with room (first fit decreasing, never over 11/9 of the least number and 6/9: Dósa, 2007). The way with fewer
 * heats wins, the first if equal. In a heat the thinnest is poured first; heats come by their thinnest.
 * @throws FoundryInputError for masses or moduli that are not positive, or no whole number of moulds.
 */
export function splitHeats(
  castings: readonly HeatCasting[],
  capacity: number,
  mostMoulds = Number.POSITIVE_INFINITY,
): HeatSplit {
  checkPositive('capacity', Math.min(capacity, Number.MAX_VALUE), 'g');
  checkPositive('mostMoulds', Math.min(mostMoulds, Number.MAX_VALUE));
  const moulds = castings.flatMap(({ name, quantity, metal, thinnestModulus, pourTime }) => {
    checkRange(`${name} quantity`, quantity, 0, 100_000);
    checkPositive(`${name} metal`, metal, 'g');
    checkPositive(`${name} thinnestModulus`, thinnestModulus, 'mm');
    const mould = { name, metal, thinnestModulus, ...(pourTime === undefined ? {} : { pourTime }) };
    return Array.from({ length: quantity }, (_, i): HeatMould => ({ ...mould, copy: i + 1 }));
  });
  const thinnest = [...moulds].sort(byModulus);
  const largest = [...moulds].sort((a, b) => b.metal - a.metal || byModulus(a, b));
  const ways = [thinnest, largest].map((order) => fill(order, capacity, mostMoulds));
  const [first, second] = ways as [HeatMould[][], HeatMould[][]];
  const chosen = second.length < first.length ? second : first;
  return {
    heats: chosen.map((h) => h.sort(byModulus)).sort((a, b) => byModulus(a[0]!, b[0]!)),
    tooLarge: castings.filter((c) => c.quantity > 0 && c.metal > capacity).map((c) => c.name),
  };
}

const byModulus = (a: HeatMould, b: HeatMould): number => a.thinnestModulus - b.thinnestModulus;

/** Room for what rounding leaves over a capacity met exactly. */
const slack = 1e-9;

function fill(order: readonly HeatMould[], capacity: number, mostMoulds: number): HeatMould[][] {
  const heats: { moulds: HeatMould[]; metal: number }[] = [];
  for (const mould of order) {
    const room = heats.find(
      (h) => h.metal + mould.metal <= capacity * (1 + slack) && h.moulds.length < mostMoulds,
    );
    if (room === undefined) heats.push({ moulds: [mould], metal: mould.metal });
    else {
      room.moulds.push(mould);
      room.metal += mould.metal;
    }
  }
  return heats.map((h) => h.moulds);
}
