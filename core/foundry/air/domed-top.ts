import { maths } from '../../maths/maths.js';
import type { VentPlace } from '../../part/contract.js';
import type { Mesh, Vec3 } from '../../solid/types.js';
import { cropAbout, holdsFoot, measureSeat } from '../gating/seat.js';
import type { Point } from './flat-room.js';

/** Mould left between a vent and what of the part stands beside it, mm. */
const wall = 1;

/** What stands beside a vent no higher than this over its foot is its own slope, mm. */
const slack = 0.05;

/** A foot may go this many of its radii deep: on a point of 30° and blunter. Common practice, no source. */
const deepest = 4;

/** Wide vents stand only where the top is blunt: the surface falls away no more than half the radius. */
const blunt = 0.5;

/** Shares of the foot's radius by which it may stand aside of the top, still over it; ways to stand aside. */
const asides = [0, 0.5, 0.9];
const ways = 8;

/** Where an upright vent has its foot, before it has a name. */
export type SeatedFoot = Omit<VentPlace, 'name'>;

/**
 * A foot over a top that is no flat: round, pointed, a ridge or a slope's upper end. The widest that the top is blunt
 * enough for, else the least, where its surface falls away least. Null where the part is too narrow or thin there.
 */
export function seatOnTop(
  pattern: Mesh,
  peak: Vec3,
  range: { readonly least: number; readonly largest: number },
): SeatedFoot | null {
  const [x, y, z] = peak;
  const near = cropAbout(pattern, [x, y], 2 * range.largest + wall);
  const count = 4;
  for (let i = 0; i <= count; i++) {
    const radius = (range.largest + ((range.least - range.largest) * i) / count) / 2;
    const most = (i === count ? deepest : blunt) * radius;
    let best: SeatedFoot | null = null;
    for (const aside of asides)
      for (let way = 0; way < (aside === 0 ? 1 : ways); way++) {
        const turn = (2 * Math.PI * way) / ways;
        const at: Point = [x + aside * radius * maths.cos(turn), y + aside * radius * maths.sin(turn)];
        const seat = measureSeat(near, at, radius, wall);
        if (seat === null || seat.fall > most || !holdsFoot(seat)) continue;
        // Another surface over the top, or something that stands up beside it.
        if (seat.top > z + radius || seat.beside > seat.top + slack) continue;
        if (best === null || seat.fall < (best.seat ?? 0) - 1e-6)
          best = { at: [at[0], at[1], Math.fround(seat.top)], footDiameter: 2 * radius, seat: seat.fall };
      }
    if (best) return best;
  }
  return null;
}
