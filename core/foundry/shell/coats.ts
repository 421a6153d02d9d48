/** Coats: their thickness together, what slurry and stucco they take, and the clock of laying them. */
import { maths } from '../../maths/maths.js';
import type { ShellInvestment } from '../investment.js';
import type { ShellCoats } from './investment.js';
import type { Coat } from './plans.js';
import type { ShellSurface } from './surface.js';

/** mm of a number of stuccoed coats and the seal over them. @param count ≥ 1 */
export const shellThickness = ({ prime, backup, seal }: ShellCoats, count: number): number =>
  prime.thickness + (count - 1) * backup.thickness + seal.thickness;

/** Fewest coats that come to a thickness; at least 1. */
export const coatsFor = (coats: ShellCoats, thickness: number): number =>
  1 +
  Math.max(
    0,
    Math.ceil((thickness - coats.prime.thickness - coats.seal.thickness) / coats.backup.thickness - 1e-9),
  );

/** Share of the slurry's mass that stays when it is dry: flour and the sol's silica. */
export const slurrySolids = ({ flourPerSol, solSilica }: ShellCoats): number =>
  (flourPerSol + solSilica) / (flourPerSol + 1);

/** g/mm³ by mass balance: flour and silica, and the sol's water at 1 g/cm³. */
export function shellSlurryDensity({ flourPerSol, solSilica, silicaDensity }: ShellCoats): number {
  return (flourPerSol + 1) / ((flourPerSol + solSilica) / silicaDensity + (1 - solSilica) / 1e-3);
}

/**
 * mm² of the pattern's surface once it has grown by a thickness: A + 2 M t + 2π χ t² (Steiner's polynomial: exact for
 * bodies without hollows, and for those whose hollows are wider than 2 t), and never less than the sphere of the
 * same volume has, where hollows have filled up (isoperimetric inequality).
 */
export function grownArea(surface: ShellSurface, volume: number, thickness: number): number {
  const { area, bend, euler } = surface;
  const steiner = area + 2 * bend * thickness + 2 * Math.PI * euler * thickness ** 2;
  return Math.max(steiner, maths.pow(36 * Math.PI, 1 / 3) * maths.pow(volume, 2 / 3));
}

export interface CoatMasses {
  /** mm³ of dry shell. */
  readonly volume: number;
  /** g that stays on the pattern, wet slurry and stucco. */
  readonly slurry: number;
  readonly stucco: number;
}

/** What one pattern's coats take, each on the surface as the ones under it have left it. */
export function coatMasses(
  investment: ShellInvestment,
  surface: ShellSurface,
  patternVolume: number,
  count: number,
): CoatMasses {
  const { coats, mould } = investment;
  const kinds = [coats.prime, ...Array(count - 1).fill(coats.backup), coats.seal] as const;
  let [thickness, volume, slurry, stucco] = [0, 0, 0, 0];
  for (const kind of kinds) {
    const middle = thickness + kind.thickness / 2;
    const added = grownArea(surface, patternVolume + volume, middle) * kind.thickness;
    const share = kind.grain === null ? 0 : coats.stuccoShare;
    thickness += kind.thickness;
    volume += added;
    stucco += added * mould.density * share;
    slurry += (added * mould.density * (1 - share)) / slurrySolids(coats);
  }
  return { volume, slurry, stucco };
}

const day = 24 * 3600;

/**
 * The clock: as many dips in a working day as its hours hold, the rest of the night to dry.
 * @param workingDay s from the first dip of a day to its last; default 8 h
 */
export function coatClock(coats: ShellCoats, count: number, workingDay = 8 * 3600): readonly Coat[] {
  const list: Coat[] = [];
  let at = 0;
  for (let number = 1; number <= count + 1; number++) {
    const name = number === 1 ? 'prime' : number <= count ? 'backup' : 'seal';
    const kind = coats[name];
    list.push({
      name,
      number,
      ...(kind.grain === null ? {} : { grain: kind.grain }),
      thickness: kind.thickness,
      at,
      dry: kind.dryTime,
    });
    at += kind.dryTime;
    if (at % day > workingDay) at = Math.ceil(at / day) * day;
  }
  return list;
}
