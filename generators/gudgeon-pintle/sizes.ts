import type { Bolt, CountersinkSeat, FastenerSeries } from '../../core/hardware/index.js';
import {
  edgeDistance,
  gudgeonRule,
  type LoadCheck,
  leastPitch,
  leastPlate,
  nearStep,
  upStep,
} from '../../core/hardware/index.js';
import type { Vec2 } from '../../core/solid/types.js';
import { askedScrew, countersunkBolts, seatOf } from '../hardware/screw-field.js';
import { checkPintle, pintleByLoad } from './loads.js';
import type { GudgeonPintleParameters } from './parameters.js';
import { bossFoot, strapFlat } from './strap-shape.js';

export type RudderPiece = 'pintle' | 'gudgeon';

/** Sizes of pintle or gudgeon, finished, mm. The pin's axis is Z, the wood lies towards +X. */
export interface RudderSizes {
  readonly piece: RudderPiece;
  /** `strap`: two straps about wood `wood` thick; `plate`: flat on wood. */
  readonly mount: 'plate' | 'strap';
  readonly pinDiameter: number;
  readonly pintleLength: number;
  /** Pin cast on, for a pintle. */
  readonly castPin: boolean;
  /** Hole in the boss; 0 for a cast pin. */
  readonly holeDiameter: number;
  /** Chamfer of the hole's upper mouth, leg. */
  readonly chamfer: number;
  readonly bossRadius: number;
  readonly width: number;
  readonly thickness: number;
  readonly wood: number;
  /** Axis to the wood. */
  readonly standOff: number;
  /** Front of the plate, from the axis. */
  readonly front: number;
  /** From the wood's front face to the straps' ends; half the plate's length for a plate. */
  readonly reach: number;
  readonly edge: number;
  readonly fillet: number;
  readonly pinFillet: number;
  readonly screw: Bolt;
  readonly seat: CountersinkSeat;
  /** Screws in [along, z]: along x on a strap, along y on a plate. */
  readonly screwsAt: readonly Vec2[];
  readonly load: LoadCheck;
}

/** The thickest countersunk bolt up to 1.4 of the strap's thickness whose head strap and width hold; else the thinnest. */
function boltFor(series: FastenerSeries, thickness: number, width: number): Bolt {
  const row = countersunkBolts[series];
  const fits = (bolt: Bolt): boolean => {
    const seat = seatOf(bolt);
    return (
      bolt.diameter <= 1.4 * thickness &&
      seat.mouthDiameter <= 0.65 * width &&
      leastPlate(seat) <= thickness + 1e-9
    );
  };
  return row.findLast(fits) ?? (row[0] as Bolt);
}

/** At the root of a cast pin, mm: a fifth of it, for it bends there (common practice, no source). */
const rootFillet = (pinDiameter: number): number => Math.max(1.5, 0.2 * pinDiameter);

export function rudderSizes(p: GudgeonPintleParameters, piece: RudderPiece): RudderSizes {
  const near = (value: number): number => nearStep(p.series, value);
  const up = (value: number): number => upStep(p.series, value);
  const down = (value: number): number => -upStep(p.series, -value);
  const pinDiameter = p.pintleDiameter ?? pintleByLoad(p);
  const rule = gudgeonRule(pinDiameter);
  const width = p.strapWidth ?? near(rule.strapWidth);
  const thickness = p.thickness ?? Math.max(4, near(0.4 * pinDiameter));
  const wall = p.wall ?? Math.max(near(rule.wall), thickness);
  const running = pinDiameter + (p.clearance ?? rule.clearance);
  const mount = piece === 'gudgeon' ? p.mount : 'strap';
  const castPin = piece === 'pintle' && p.pin === 'cast';
  // Of a whole size, where its wall is not given.
  const bossRadius = p.wall === undefined ? up(running / 2 + wall) : running / 2 + wall;
  const fillet = p.fillet ?? Math.max(1.5, near(thickness / 2));
  const blade = p.bladeThickness ?? Math.max(16, near(p.size / 25));
  const wood = piece === 'pintle' ? blade : (p.postThickness ?? blade);
  const standOff = up(bossRadius + 0.3 * thickness);
  const front = standOff - thickness;
  const screw = askedScrew(p.screw) ?? boltFor(p.series, thickness, width);
  const seat = seatOf(screw);
  const ends = Math.max(edgeDistance(screw), (thickness + seat.mouthDiameter) / 2 + 0.3);
  const pitch = Math.max(leastPitch(screw), 2.5 * seat.mouthDiameter);
  // Heads clear the corner of the web, or the boss with its fillet.
  const clear = seat.mouthDiameter / 2 + 0.5;
  const bossSide = bossFoot({ bossRadius, front, fillet }) + clear;
  const strapSide = strapFlat({ bossRadius, fillet, wood, standOff, thickness }) - standOff + clear;
  // Along a strap from the wood's front, along a plate from its middle.
  const first = up(mount === 'strap' ? Math.max(ends, 0.75 * width, strapSide) : bossSide);
  const reach =
    p.strapLength === undefined
      ? up(Math.max(mount === 'strap' ? 60 : 25, first + (p.screws - 1) * pitch + ends))
      : mount === 'strap'
        ? p.strapLength
        : p.strapLength / 2;
  const last = down(reach - ends);
  const along = Array.from({ length: p.screws }, (_, i) =>
    p.screws === 1 ? (first + last) / 2 : first + ((last - first) * i) / (p.screws - 1),
  );
  const screwsAt =
    mount === 'strap'
      ? along.map((a): Vec2 => [standOff + a, width / 2])
      : [...along.map((a): Vec2 => [a, width / 2]), ...along.map((a): Vec2 => [-a, width / 2])];
  const pinFillet = castPin ? rootFillet(pinDiameter) : 0;
  return {
    piece,
    mount,
    pinDiameter,
    pintleLength:
      p.pintleLength ?? near(width + 0.2 * pinDiameter + (p.position === 'lower' ? rule.pintleStep : 0)),
    castPin,
    holeDiameter: castPin ? 0 : piece === 'gudgeon' ? running : pinDiameter,
    // A gudgeon's mouth clears the fillet at the root of the pin.
    chamfer: piece === 'gudgeon' ? rootFillet(pinDiameter) + 0.4 : castPin ? 0 : 0.2 * pinDiameter,
    bossRadius,
    width,
    thickness,
    wood,
    standOff,
    front,
    reach,
    edge: p.edge ?? Math.min(thickness / 3, Math.max(0.7, near(thickness / 5))),
    fillet,
    pinFillet,
    screw,
    seat,
    screwsAt,
    load: checkPintle(p, {
      pinDiameter,
      holeDiameter: running,
      strapWidth: width,
      wall: bossRadius - running / 2,
    }),
  };
}
