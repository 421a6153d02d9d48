/** How fast the metal cools in a crucible that is out of the furnace. mm, g, J, s, °C. */
import { maths } from '../../maths/maths.js';
import type { Alloy, AlloyFamily } from '../alloys/index.js';
import { checkPositive, checkRange } from '../input.js';
import { roomTemperature as room, stefanBoltzmann, stillAir } from '../surroundings.js';
import type { Crucible } from './crucibles.js';

const kelvin = 273.15;

/** Emissivity of metal's open surface, skinned with oxide (handbook tables, from memory). */
export const surfaceEmissivity: Readonly<Record<AlloyFamily, number>> = {
  copper: 0.4,
  aluminium: 0.2,
  zinc: 0.25,
  iron: 0.4,
  tin: 0.1,
  silver: 0.1,
};

/** Clay-graphite and silicon carbide ware (from memory). */
const ware = {
  emissivity: 0.85,
  /** g/mm³ */
  density: 2.1e-3,
  /** J/(g·K), near 1000 °C. */
  specificHeat: 1.2,
  /** Wall and bottom over the mouth's diameter. */
  wallShare: 0.12,
};

export interface CrucibleBody {
  /** mm²: the metal's surface, and the ware's outside. */
  readonly openArea: number;
  readonly wallArea: number;
  /** Of the ware, J/K. */
  readonly heatCapacity: number;
}

/** A pot taken as a cylinder of the mouth's width that holds the brim volume, its wall 0.12 of that width. */
export function crucibleBody({ brimVolume, mouthDiameter: d }: Crucible): CrucibleBody {
  checkPositive('brim volume', brimVolume, 'mm³');
  checkPositive('mouth diameter', d, 'mm');
  const openArea = (Math.PI / 4) * d ** 2;
  const depth = brimVolume / openArea;
  const wall = ware.wallShare * d;
  const outside = d + 2 * wall;
  const bottom = (Math.PI / 4) * outside ** 2;
  const wareVolume = bottom * (depth + wall) - brimVolume;
  return {
    openArea,
    wallArea: Math.PI * outside * (depth + wall) + bottom,
    heatCapacity: wareVolume * ware.density * ware.specificHeat,
  };
}

/**
 * Heat it gives off, W: the metal's surface and the ware's outside radiate to a room at 20 °C and lose to the air,
 * ε σ A (T⁴ − T_room⁴) + h A (T − T_room) (Stefan and Boltzmann; Newton). Metal and ware are taken to be at one
 * temperature: the Biot number of the wall, radiation's 4 ε σ T³ ≈ 0.5 kW/(m²·K) at 1100 °C over a conductivity of
 * some 20 W/(m·K) and half a wall, is about 0.1, so the true drop is a little slower.
 */
export function heatLoss(body: CrucibleBody, family: AlloyFamily, temperature: number): number {
  const fourth = maths.pow(temperature + kelvin, 4) - maths.pow(room + kelvin, 4);
  const radiating = surfaceEmissivity[family] * body.openArea + ware.emissivity * body.wallArea;
  return (
    stefanBoltzmann * radiating * fourth + stillAir * (body.openArea + body.wallArea) * (temperature - room)
  );
}

/**
 * Temperature after `time` s of cooling from `from`, with `metal` g in the pot; backwards for a negative time, that
 * is, how hot it must have been. Superheat only: below the liquidus freezing metal gives off latent heat and falls
 * more slowly. Runge and Kutta's fourth-order rule, in steps of at most 2 s.
 */
export function coolInCrucible(
  alloy: Pick<Alloy, 'family' | 'specificHeat'>,
  body: CrucibleBody,
  metal: number,
  from: number,
  time: number,
): number {
  checkRange('metal', metal, 0, Number.POSITIVE_INFINITY, 'g');
  checkRange('temperature', from, room, 3000, '°C');
  const capacity = metal * alloy.specificHeat.liquid + body.heatCapacity;
  const rate = (t: number): number => -heatLoss(body, alloy.family, t) / capacity;
  const steps = Math.max(1, Math.ceil(Math.abs(time) / 2));
  const h = time / steps;
  let t = from;
  for (let i = 0; i < steps; i++) {
    const a = rate(t);
    const b = rate(t + (h / 2) * a);
    const c = rate(t + (h / 2) * b);
    t += (h / 6) * (a + 2 * b + 2 * c + rate(t + h * c));
  }
  return t;
}
