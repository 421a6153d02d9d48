import type { z } from 'zod';
import {
  type Bolt,
  bossDiameter,
  type CountersinkSeat,
  type FingerCount,
  fastenerAtLeast,
  handleRoom,
  headLand,
  leastGripDiameter,
  leastPlate,
  nearStep,
  tapRunOut,
  upStep,
  usualPull,
} from '../../core/hardware/index.js';
import { askedScrew, seatOf, withCountersunkHead } from '../hardware/screw-field.js';
import type { bowPullParameters } from './parameters.js';

export type BowPullParameters = z.output<typeof bowPullParameters>;

/** Every size of a bow pull, mm. Finished; the door is z = 0, the pull lies along X. */
export interface BowPullSizes {
  readonly fingers: FingerCount;
  readonly fixing: 'screws' | 'studs';
  readonly width: number;
  readonly depth: number;
  readonly gripHeight: number;
  readonly gripWidth: number;
  readonly legHeight: number;
  readonly legWidth: number;
  readonly footThickness: number;
  readonly footWidth: number;
  /** Upper edge of the feet. */
  readonly footEdge: number;
  /** Squareness of the arch: 2 an ellipse. */
  readonly archExponent: number;
  /** From the middle to a leg's centre line at the door. */
  readonly legX: number;
  /** Height of the grip's centre line in the middle. */
  readonly crown: number;
  /** From the middle to a screw or stud. */
  readonly screwX: number;
  readonly screw: Bolt;
  readonly seat: CountersinkSeat;
  readonly fillet: number;
  /** Tapped hole for a stud. */
  readonly tapDepth: number;
  /** N */
  readonly pull: number;
}

/** Squareness of the arch: a little fuller than an ellipse, so that fingers have room beside the legs. */
const archExponent = 2.6;

export function bowPullSizes(p: BowPullParameters): BowPullSizes {
  const near = (value: number): number => nearStep(p.series, value);
  const up = (value: number): number => upStep(p.series, value);
  const fingers = p.fingers as FingerCount;
  const room = handleRoom(fingers, p.hand);
  const pull = p.pull ?? usualPull[fingers];
  const gripHeight =
    p.gripHeight ??
    up(Math.max(near(8 + 1.5 * fingers), Math.min(leastGripDiameter(pull) * 0.6, 0.3 * room.width)));
  const gripWidth = p.gripWidth ?? near(1.3 * gripHeight);
  const screw = withCountersunkHead(
    askedScrew(p.screw) ?? fastenerAtLeast('bolt', p.series, 0.36 * gripHeight),
  );
  const seat = seatOf(screw);
  const stud = bossDiameter(screw.tapDrill);
  const legHeight = p.legHeight ?? Math.max(near(0.95 * gripHeight), p.fixing === 'studs' ? up(stud) : 0);
  const legWidth = p.legWidth ?? Math.max(near(0.95 * gripWidth), p.fixing === 'studs' ? up(stud) : 0);
  const fillet = p.fillet ?? Math.max(2, near(0.5 * Math.min(legHeight, legWidth)));
  const footThickness =
    p.footThickness ?? up(Math.max(0.4 * gripHeight, p.fixing === 'screws' ? leastPlate(seat) : 3));
  const footEdge = Math.min(0.5 * footThickness, 2.5);
  const land = seat.mouthDiameter / 2 + Math.max(headLand(seat.mouthDiameter), footEdge + 0.3);
  const footWidth =
    p.footWidth ?? up(Math.max(legWidth + 1.2 * fillet + 2 * footEdge, p.fixing === 'screws' ? 2 * land : 0));
  const depth = p.depth ?? up(room.depth);
  const width = p.width ?? up(room.width);
  const legX = width / 2 + legHeight / 2;
  return {
    fingers,
    fixing: p.fixing,
    width,
    depth,
    gripHeight,
    gripWidth,
    legHeight,
    legWidth,
    footThickness,
    footWidth,
    footEdge,
    archExponent,
    legX,
    crown: depth + gripHeight / 2,
    screwX: p.fixing === 'screws' ? legX + legHeight / 2 + fillet + seat.mouthDiameter / 2 + 0.3 : legX,
    screw,
    seat,
    fillet,
    tapDepth: 1.5 * screw.diameter + tapRunOut(screw),
    pull,
  };
}
